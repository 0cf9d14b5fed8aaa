import type { Finding } from '../alerts/alert.ts';
import { confirm } from './confirm.ts';
import { LOST } from './limits.ts';
import type { Moment } from './moment.ts';
import { limit } from './state.ts';
import { lost, neverHeard, noGroundWind, returns } from './words.ts';

/** The heading, known since the watch began, is stale: where the roller is gets uncertain. */
export const findHeadingLost = (moment: Moment): Finding | undefined =>
  find(moment, 'heading', true, 'caution');

/** The same of the wind: a warning while a limit depends on it. */
export function findWindLost(moment: Moment): Finding | undefined {
  const { state, settings } = moment;
  const shift = limit(state, settings, 'windShift') !== undefined;
  const limited = shift || limit(state, settings, 'windAbove') !== undefined;
  return (
    find(moment, 'wind', limited, limited ? 'warning' : 'caution') ??
    (shift ? findNoDirection(moment) : undefined)
  );
}

/** The same of the depth. */
export function findDepthLost(moment: Moment): Finding | undefined {
  const { state, settings } = moment;
  const limited =
    limit(state, settings, 'depthBelow') !== undefined || limit(state, settings, 'depthAbove') !== undefined;
  return find(moment, 'depth', limited, limited ? 'warning' : 'caution');
}

/**
 * What was known since the watch began and is now older than its limit. What has never been heard is no loss; yet a limit that
 * depends on it is not watched, and a caution says so.
 */
function find(
  { state, vessel, at }: Moment,
  what: 'heading' | 'wind' | 'depth',
  matters: boolean,
  priority: 'caution' | 'warning',
): Finding | undefined {
  const kind = `${what}-lost` as const;
  const { age: most, rule } = LOST[what];
  const age = vessel.ages[what];
  if (age === undefined || at - age < state.since) {
    const expected = matters && what !== 'heading' && at - state.since > LOST.neverHeard;
    return expected ? { kind, priority: 'caution', text: neverHeard(what) } : undefined;
  }
  const side = age > most ? 'beyond' : 'within';
  if (!confirm(state.confirms, kind, rule, { at, limit: most, side, reading: undefined })) return undefined;
  const text = side === 'beyond' ? lost(what, age, matters) : returns(what);
  return { kind, priority, text, value: age, limit: most };
}

/** There is wind, but its direction over ground has been unknown for a while: a shift would go unseen. */
function findNoDirection({ state, at }: Moment): Finding | undefined {
  if (at - Math.max(state.groundWindAt ?? 0, state.since) <= LOST.neverHeard) return undefined;
  return { kind: 'wind-lost', priority: 'caution', text: noGroundWind };
}
