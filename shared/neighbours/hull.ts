import type { Extent } from '../ais/message.ts';
import { add, hypot, towards, type Vector } from '../quantities/vector.ts';

/** A hull seen from above: its middle line in metres east and north, and half its breadth. Without heading: a round of its length. */
export interface HullLine {
  bow: Vector;
  stern: Vector;
  half: number;
}

/** The hull of a vessel whose reference point is at `place`, by the distances from there to her ends and sides. */
export function hullLine(place: Vector, heading: number | undefined, extent: Extent): HullLine {
  const half = (extent.toPort + extent.toStarboard) / 2;
  if (heading === undefined) {
    // She may lie any way about that point.
    const round = Math.max(extent.toBow, extent.toStern, half);
    return { bow: place, stern: place, half: round };
  }
  const middle = add(place, towards((extent.toStarboard - extent.toPort) / 2, heading + 90));
  return {
    bow: add(middle, towards(extent.toBow, heading)),
    stern: add(middle, towards(-extent.toStern, heading)),
    half,
  };
}

/** Clear water between two hulls, m; negative: they overlap by about so much. */
export const clearWater = (a: HullLine, b: HullLine): number => between(a, b) - a.half - b.half;

/** Distance from a hull to a point, m; 0 on or in it. */
export const clearOf = (hull: HullLine, point: Vector): number =>
  Math.max(0, toSegment(point, hull.bow, hull.stern) - hull.half);

/** Least distance between two segments in the plane. Asked by the thousand: nothing is made on the way that is thrown away. */
function between(a: HullLine, b: HullLine): number {
  if (cross(a, b)) return 0;
  return Math.min(
    toSegment(a.bow, b.bow, b.stern),
    toSegment(a.stern, b.bow, b.stern),
    toSegment(b.bow, a.bow, a.stern),
    toSegment(b.stern, a.bow, a.stern),
  );
}

function toSegment(point: Vector, from: Vector, to: Vector): number {
  const alongEast = to.east - from.east;
  const alongNorth = to.north - from.north;
  const square = alongEast ** 2 + alongNorth ** 2;
  const offEast = point.east - from.east;
  const offNorth = point.north - from.north;
  const share =
    square === 0 ? 0 : Math.min(1, Math.max(0, (offEast * alongEast + offNorth * alongNorth) / square));
  return hypot(offEast - alongEast * share, offNorth - alongNorth * share);
}

/** Square metres below which three points are in line: a crossing so shallow is a touch, which the ends show. */
const IN_LINE = 1e-6;

/** Which side of the line a–b a point is on: −1, 1, or 0 in line. */
function side(a: Vector, b: Vector, p: Vector): number {
  const area = (b.east - a.east) * (p.north - a.north) - (b.north - a.north) * (p.east - a.east);
  return Math.abs(area) < IN_LINE ? 0 : Math.sign(area);
}

function cross(a: HullLine, b: HullLine): boolean {
  return (
    side(a.bow, a.stern, b.bow) * side(a.bow, a.stern, b.stern) < 0 &&
    side(b.bow, b.stern, a.bow) * side(b.bow, b.stern, a.stern) < 0
  );
}
