import type { Signal } from '../../shared/signals.ts';
import type { OutFrom, Stay } from '../../shared/weigh/view.ts';

/** Every word of the foredeck's page: short, to be read with one look in the rain. */
export const foredeckWords = {
  title: 'Foredeck',
  stop: 'STOP',
  signals: {
    stop: 'STOP',
    ahead: 'Ahead',
    neutral: 'Neutral',
    astern: 'Astern',
    heaving: 'Heaving',
    holding: 'Holding',
    snubbed: 'Snubbed',
    'up-and-down': 'Up and down',
    aweigh: 'Aweigh',
    foul: 'Foul',
  } as Record<string, string>,
  closeMark: 'Close the mark',
  leads: 'Where the cable leads, the bow is 12',
  cableOut: 'Cable out',

  sending: (what: string, seconds: string) => `${what}: sending, ${seconds}`,
  seen: (what: string, by: string, seconds: string) => `${what}: seen, ${by}, after ${seconds}`,
  missed: (what: string, why: string, again: string) => `${what} NOT SEEN: ${why} ${again}`,
  theHelm: 'the helm',
  why: {
    noHelm: 'no helm page is open.',
    hidden: (name: string) => `${name} is not in view.`,
    noKey: 'the helm’s screen may only look.',
    slow: (name: string) => `${name} has not shown it.`,
    noLink: 'no answer from the boat.',
  },
  again: 'Tap again, or use your hands.',
  stopAgain: 'Sending again; use your hands.',

  helm: {
    label: 'Link to the helm',
    sees: 'Helm sees',
    none: 'NO HELM',
    noneWhy: 'no helm page open',
    hidden: 'HELM AWAY',
    noKey: 'may only look',
    noLink: 'NO LINK',
    noLinkWhy: (age: string) => `for ${age}`,
    calling: 'Calling…',
  },
  noLink: (age: string) => `NO LINK to the boat for ${age}. Signals do not reach the helm: use your hands.`,
  figuresOld: 'The boat’s figures stand still.',

  stay: {
    long: 'long stay',
    short: 'SHORT STAY',
    'up-and-down': 'UP AND DOWN',
    aweigh: 'AWEIGH',
  } satisfies Record<Stay, string>,
  probably: (what: string) => `probably ${what}`,
  cable: { slack: 'cable slack', fair: 'leads fair', taut: 'CABLE TAUT' },
  cableUnknown: 'cable not known',
  outFrom: {
    counter: 'by counter',
    foredeck: 'as you told',
    counted: 'counted',
    veered: 'as veered',
    bounds: 'at most',
  } satisfies Record<OutFrom, string>,
  out: 'out',
  outUnknown: 'length not told',

  caution: 'Never pull the boat with the windlass. Hands, feet, hair, clothing clear.',
  idle: 'Nobody has started to weigh: signals would reach nobody.',
  noMark: 'There is no mark: nothing to weigh.',
  start: 'Start to weigh',
  check: 'Departure check',
};

/** A signal in words: “Lead 2 o'clock”, “15 m out”. */
export function signalInWords(signal: Signal | string): string {
  const [word = '', figure] = signal.split(':');
  if (word === 'lead') return `Lead ${figure} o’clock`;
  if (word === 'out') return `${figure}\u00a0m out`;
  return foredeckWords.signals[word] ?? signal;
}
