import { size } from '../quantities/vector.ts';
import { type Change, isAlive, nameOf, type Source, serving } from './channel.ts';
import { doubted } from './doubt.ts';
import { LIMITS } from './limits.ts';
import type { Fix, PositionState } from './position.ts';
import { displacement } from './step.ts';

/** Receivers of one boat differ by their errors and the place of their antennas: up to this many metres (our choice). */
const TOLERATED = 30;
/** 99 % of a circular Gaussian error lie within 3.03 sigma. */
const SIGMAS = 3.03;
/** Seconds that they must differ before it counts (our choice). */
const LASTING = 10;
/** m/s by which a boat may be faster than she was at the older of the two fixes. */
const HIDDEN_SPEED = 1;

/**
 * Compares the serving receiver with the others that are alive. When one differs by more than errors and motion allow for some
 * seconds, one of them is wrong, and nobody knows which: the position is doubtful.
 */
export function compareReceivers(
  state: PositionState,
  sigma: (source: Source<Fix>) => number,
  at: number,
): void {
  const { channel } = state;
  const now = serving(channel);
  const other =
    now && isAlive(now, at, LIMITS.position) ? channel.sources.find(disagrees(now, sigma, at)) : undefined;
  if (!now || !other) {
    if (state.disagreeing !== undefined) state.disagreeing = undefined;
    return;
  }
  state.disagreeing ??= at;
  if (at - state.disagreeing < LASTING) return;
  const metres = Math.round(size(displacement(now.value, other.value)));
  const reason = `${nameOf(now)} and ${nameOf(other)} are ${metres} m apart`;
  state.doubt = doubted(state.doubt, 'receivers', reason, at);
}

/**
 * At a change of the serving receiver: the new one must stand where the old one was last, as far as errors and motion allow. Else
 * the boat seems to jump, and nobody knows which of the two is right.
 */
export function compareAtChange(
  state: PositionState,
  { from, to }: Change<Fix>,
  sigma: (source: Source<Fix>) => number,
  at: number,
): void {
  if (!areApart(from, to, sigma)) return;
  const metres = Math.round(size(displacement(from.value, to.value)));
  const reason = `${nameOf(to)} is ${metres} m from where ${nameOf(from)} was`;
  state.doubt = doubted(state.doubt, 'step', reason, at);
}

const disagrees =
  (now: Source<Fix>, sigma: (source: Source<Fix>) => number, at: number) =>
  (other: Source<Fix>): boolean =>
    isAlive(other, at, LIMITS.position) && areApart(now, other, sigma);

/** True when two receivers (not two sentences of one) differ by more than their errors, and motion between their fixes, allow. */
function areApart(one: Source<Fix>, other: Source<Fix>, sigma: (source: Source<Fix>) => number): boolean {
  if (one.talker === other.talker && one.input === other.input) return false;
  const errors = Math.max(TOLERATED, SIGMAS * Math.hypot(sigma(one), sigma(other)));
  const speed = Math.max(one.value.sog ?? 0, other.value.sog ?? 0) + HIDDEN_SPEED;
  return size(displacement(one.value, other.value)) > errors + speed * Math.abs(one.at - other.at);
}
