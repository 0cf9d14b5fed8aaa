import type { CableShape } from './shape.ts';
import { type Rode, span } from './walk.ts';

/** A point of the cable: metres from the anchor towards the boat, and above the bottom at the anchor. */
export interface ProfilePoint {
  out: number;
  up: number;
}

/**
 * The line of a cable for drawing, from roller to touch-down to anchor, in about `pieces` steps of the part that hangs. `shape`
 * is how this rode hangs (rodeUnder, rodeAt, or catenary.ts for one part); empty when that is infeasible.
 */
export function profile(rode: Rode, shape: CableShape, pieces = 24): ProfilePoint[] {
  if (shape.state === 'infeasible') return [];
  const roller = { out: shape.reach, up: rode.height };
  const anchor = { out: 0, up: 0 };
  if (shape.state === 'taut') return [roller, anchor];
  if (shape.state === 'slack') {
    const slope = Math.tan(((rode.slope ?? 0) * Math.PI) / 180);
    return [roller, { out: shape.reach, up: Math.min(rode.height, shape.reach * slope) }, anchor];
  }
  const points = [roller];
  let { out, up } = roller;
  let force = shape.horizontal * Math.tan((shape.angleAtRoller * Math.PI) / 180);
  let left = shape.suspended;
  for (let index = rode.parts.length - 1; index >= 0 && left > 1e-9; index--) {
    const part = rode.parts[index]!;
    const hangs = Math.min(part.length, left);
    const steps = Math.max(1, Math.round((pieces * hangs) / shape.suspended));
    for (let step = 0; step < steps; step++) {
      const piece = span(part, hangs / steps, shape.horizontal, force, force - (part.weight * hangs) / steps);
      out -= piece.along;
      up -= piece.rise;
      force -= (part.weight * hangs) / steps;
      points.push({ out, up });
    }
    left -= hangs;
  }
  if (shape.onBottom > 1e-9) points.push(anchor);
  else points[points.length - 1] = anchor;
  return points;
}
