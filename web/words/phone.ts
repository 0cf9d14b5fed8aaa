import type { Lack } from '../../shared/phone.ts';
import type { Gap } from '../live.ts';
import { noun } from '../phone/identity.ts';

/** Every word about whether this device would wake somebody, and which others would. */
export const phoneWords = {
  region: `This ${noun} as an alarm`,
  arm: `Arm this ${noun}`,
  notArmed: `This ${noun} would not wake you: it is not armed.`,
  notArmedShort: 'Not armed',
  wakes: `This ${noun} would wake you now`,
  wakesNot: `This ${noun} would NOT wake you now`,
  wakesNotShort: 'Would not wake you',
  onCharge: (level: string) => `on charge, ${level}`,
  onBattery: (level: string) => `on battery, ${level}: put it on charge`,
  armedHere: 'Armed on board',
  noneArmed: `No ${noun === 'computer' ? 'phone' : noun} on board is armed.`,
  this: 'this one',
  ready: 'would wake',
  details: 'Details',

  question: 'That was the alarm. Did you hear it?',
  questionVibration: 'That was the alarm, and it should have vibrated. Did you hear it?',
  heard: 'I heard it',
  nothing: 'I heard nothing',
  again: 'Play the alarm again',
  unheard: `Then it would not wake you. Turn the volume up, silent mode and do-not-disturb off, Bluetooth and headphones off; then play it again.`,
  disarm: `Disarm this ${noun}`,
  disarmHint: 'On purpose: the boat will not miss it.',
  vibration: {
    unknown: '',
    taken: `This ${noun} took the order to vibrate.`,
    absent: 'It cannot vibrate: this browser has no vibration.',
  },

  neverLocks: `This ${noun} is set to never lock its screen`,
  lasting: 'For the night: on charge, this page in view, low-power mode off, volume up.',
  notAlone: 'No phone replaces the horn, and no page the anchor watch that people keep.',

  lack: {
    silent: 'is not heard',
    hidden: 'does not show this page',
    sound: 'cannot sound',
    'wake-lock': 'may lock itself',
    battery: 'battery is nearly empty',
    link: 'hears nothing from the boat',
    figures: 'gets no figures from the boat',
  } satisfies Record<Lack | 'link' | 'figures', string>,
  mend: {
    silent: '',
    hidden: 'Keep this page in view.',
    sound: 'The browser has stopped the sound: tap anywhere on this page.',
    'wake-lock': `The screen may lock itself, and then nothing sounds: set this ${noun} to never lock, low-power mode off.`,
    battery: 'Put it on charge.',
    link: 'Look at the Wi-Fi and the boat’s computer.',
    figures: 'Look at the boat’s computer.',
  } satisfies Record<Lack | 'link' | 'figures', string>,
  insecure:
    'This page came over plain http, and browsers keep the screen awake only over https: open the boat’s https address, or set the screen to never lock and say so below.',

  gap: ({ why }: Gap, from: string, to: string) =>
    ({
      asleep: `This ${noun} was asleep ${from}–${to} and watched nothing.`,
      closed: `This page was closed ${from}–${to} while the ${noun} was armed: it watched nothing.`,
      'no-word': `No word from the boat reached this page ${from}–${to}.`,
    })[why],

  update: 'A newer hawse is on board. Taking it over loads this page anew; the sound then needs a tap.',
  takeOver: 'Take it over',
};

/** A battery's level as people say it. */
export const percent = (level: number): string => `${Math.round(level * 100)}\u00a0%`;
