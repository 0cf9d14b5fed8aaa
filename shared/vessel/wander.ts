import { add, scale, size, subtract, type Vector } from '../quantities/vector.ts';
import { displacement, type Moving, meanVelocity } from './step.ts';

/**
 * Follows how far the fixes wander from where the reported velocity would have taken the boat. Under a bad sky they do so by tens of
 * metres within half a minute, each step too small to be a jump (measured: sigma 40–70 m, correlated over 2–5 min).
 */
export interface Wander {
  /** Sum of all steps that the velocity does not account for, and of the distance sailed by the reported speed, metres. */
  unexplained: Vector;
  sailed: number;
  /** The same at some moments of the last half minute. */
  marks: { at: number; unexplained: Vector; sailed: number }[];
}

/** Seconds looked back, and between marks. */
const WINDOW = 30;
const MARK_EVERY = 5;
/**
 * Metres of wander within the window that no healthy receiver shows, and the share of the distance sailed that a damped speed and
 * course may be wrong by (our choice; the recorded boats stay below a third of it, 0.7 while a receiver settles after switching on).
 */
const LIMIT = 25;
const SHARE = 0.5;

export const createWander = (): Wander => ({ unexplained: { east: 0, north: 0 }, sailed: 0, marks: [] });

/** Takes a step of `dt` seconds with known speed; true when the fixes have wandered too far in the last half minute. */
export function wanders(state: Wander, a: Moving, b: Moving, dt: number, at: number): boolean {
  const step = subtract(displacement(a, b), scale(meanVelocity(a, b), dt));
  state.unexplained = add(state.unexplained, step);
  state.sailed += Math.max(a.sog ?? 0, b.sog ?? 0) * dt;
  const { marks } = state;
  while (marks.length > 0 && at - marks[0]!.at > WINDOW) marks.shift();
  const last = marks[marks.length - 1];
  if (!last || at - last.at >= MARK_EVERY)
    marks.push({ at, unexplained: state.unexplained, sailed: state.sailed });
  const limit = (sailed: number) => LIMIT + SHARE * (state.sailed - sailed);
  return marks.some(
    ({ unexplained, sailed }) => size(subtract(state.unexplained, unexplained)) > limit(sailed),
  );
}
