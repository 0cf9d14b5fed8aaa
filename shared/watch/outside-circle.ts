import type { Finding } from '../alerts/alert.ts';
import { type Confirms, confirm, over } from './confirm.ts';
import { shaken } from './drag/receiver.ts';
import { OUTSIDE_CIRCLE } from './limits.ts';
import type { Moment } from './moment.ts';
import { rangeNow } from './range.ts';
import { outsideCircle, outsideCircleDoubtful, outsideCircleUnseen } from './words.ts';

/** Memories of this condition: by sound fixes; by any, a doubt lasting; farther and for longer than a doubtful position explains. */
const KEYS = {
  sound: 'outside-circle',
  doubtful: 'outside-circle, doubtful',
  far: 'outside-circle, far',
  long: 'outside-circle, long',
} as const;

export function forgetCircle(confirms: Confirms): void {
  for (const key of Object.values(KEYS)) delete confirms[key];
}

/**
 * The roller is further from the mark than the circle's radius: an alarm by sound fixes. By doubtful ones it is a warning after a
 * minute, since the position's error explains it, and an alarm once it is farther, or lasts longer, than that error does. Without a
 * heading the roller's place is only known as that of the antenna: the distance between the two is allowed on top, since she lies with
 * the antenna on the far side.
 */
export function findOutsideCircle({ state, settings, vessel, at }: Moment): Finding | undefined {
  const { circle, confirms, drag } = state;
  if (!circle) {
    forgetCircle(confirms);
    return undefined;
  }
  const { aftOfRoller, toStarboard } = settings.boat.antenna;
  const offset = vessel.heading ? undefined : Math.hypot(aftOfRoller, toStarboard);
  const range = rangeNow(state, vessel);
  const { radius: limit } = circle;
  const doubtful = vessel.positionDoubt !== undefined || (drag !== undefined && shaken(drag.receiver, at));
  const beyond = (more: number) =>
    range && over(range.distance, limit + (offset ?? 0) + more, OUTSIDE_CIRCLE.hysteresis);
  const side = beyond(0);
  const reading = range?.at;
  const { rule, doubtfulRule, farRule, longRule, explained } = OUTSIDE_CIRCLE;
  // Doubtful fixes don't raise the alarm of sound ones; inside, they end it only when they stay there.
  const soundRule = doubtful ? { ...rule, clear: doubtfulRule.clear } : rule;
  const judged = doubtful && side === 'beyond' ? 'between' : side;
  const sound = confirm(confirms, KEYS.sound, soundRule, { at, limit, side: judged, reading });
  const slow = confirm(confirms, KEYS.doubtful, doubtfulRule, { at, limit, side, reading });
  const far = confirm(confirms, KEYS.far, farRule, { at, limit, side: beyond(explained), reading });
  const long = confirm(confirms, KEYS.long, longRule, { at, limit, side, reading });
  if (!sound && !(slow && doubtful) && !far && !long) return undefined;
  const priority = sound || far || long ? 'alarm' : 'warning';
  const finding = { kind: 'outside-circle', priority, limit } as const;
  if (!range) return { ...finding, text: outsideCircleUnseen(limit) };
  const text = outsideCircle(range.distance, limit, offset);
  return {
    ...finding,
    text: priority === 'warning' ? outsideCircleDoubtful(text) : text,
    value: range.distance,
  };
}
