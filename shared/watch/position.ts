import type { Finding } from '../alerts/alert.ts';
import { confirm } from './confirm.ts';
import { POSITION_LOST } from './limits.ts';
import type { Moment } from './moment.ts';
import { positionDoubtful, positionLost, positionNever, positionReturns } from './words.ts';

/** No fresh fix, or never one since the watch began: nobody watches whether she holds. */
export function findPositionLost({ state, vessel, at }: Moment): Finding | undefined {
  const age = vessel.ages.position;
  const waited = age ?? at - state.since;
  const lost = confirm(state.confirms, 'position-lost', POSITION_LOST.rule, {
    at,
    limit: POSITION_LOST.age,
    side: waited > POSITION_LOST.age ? 'beyond' : 'within',
    reading: vessel.antenna?.at,
  });
  if (!lost) return undefined;
  return {
    kind: 'position-lost',
    priority: 'alarm',
    text: words(age, waited),
    value: waited,
    limit: POSITION_LOST.age,
  };
}

/** The receiver gives a position that should not be trusted. */
export function findPositionDoubtful({ vessel }: Moment): Finding | undefined {
  const doubt = vessel.positionDoubt;
  return doubt && { kind: 'position-doubtful', priority: 'warning', text: positionDoubtful(doubt.reason) };
}

function words(age: number | undefined, waited: number): string {
  if (age === undefined) return positionNever(waited);
  return waited > POSITION_LOST.age ? positionLost(waited) : positionReturns;
}
