/** A uniform part of a rode: length (m), weight in water (N/m, > 0), and stiffness EA (N) when its stretch matters. */
export interface Part {
  length: number;
  weight: number;
  stiffness?: number;
}

/**
 * Chain with rope behind it, a stretching cable, or a sloping bottom: what the closed form of catenary.ts cannot do. Elastic
 * catenary after J. M. Jonkman, NREL/TP-500-41958 (2007), §2, put together part by part; touch-down is tangent to the bottom.
 */
export interface Rode {
  /** From the anchor to the roller. */
  parts: readonly Part[];
  /** Roller above the bottom at the anchor, m. */
  height: number;
  /** Slope of the bottom, degrees, rising from the anchor towards the boat; 0 when flat. */
  slope?: number;
  /** Friction of cable on the bottom; 0 (left out) is the cautious choice, since it only ever helps the anchor. */
  friction?: number;
}

/** Where a rode goes for one horizontal pull and one upward force at the roller, m and N. */
export interface Walk {
  reach: number;
  /** Of the roller above the anchor, and how much it grows with the upward force. */
  height: number;
  gain: number;
  suspended: number;
  /** Upward force at the lower end of what hangs. */
  lowest: number;
  tensionAtAnchor: number;
}

/** √(1 + t²); Math.hypot is several times slower. */
const secant = (t: number): number => Math.sqrt(1 + t * t);

/** Follows the rode down from the roller to the bottom and along it to the anchor. `slope` in radians. */
export function walk(rode: Rode, slope: number, horizontal: number, upAtRoller: number): Walk {
  const touch = horizontal * Math.tan(slope);
  const result: Walk = {
    reach: 0,
    height: 0,
    gain: 0,
    suspended: 0,
    lowest: upAtRoller,
    tensionAtAnchor: horizontal * secant(upAtRoller / horizontal),
  };
  let up = upAtRoller;
  let lies = false;
  for (let index = rode.parts.length - 1; index >= 0; index--) {
    const part = rode.parts[index]!;
    const hangs = lies ? 0 : Math.min(part.length, Math.max(0, (up - touch) / part.weight));
    if (hangs > 0) {
      const down = hangs < part.length ? touch : up - part.weight * hangs;
      const piece = span(part, hangs, horizontal, up, down);
      result.reach += piece.along;
      result.height += piece.rise;
      result.gain += piece.gain;
      result.suspended += hangs;
      up = down;
    }
    if (hangs < part.length) {
      if (!lies) {
        lies = true;
        result.tensionAtAnchor = horizontal / Math.cos(slope);
        result.gain -= Math.sin(slope) / part.weight;
      }
      lie(result, part, part.length - hangs, slope, rode.friction ?? 0);
    }
  }
  result.lowest = up;
  if (!lies) result.tensionAtAnchor = horizontal * secant(up / horizontal);
  return result;
}

/** What a piece that hangs between upward forces `up` and `down` (N) spans, along and up, and how that grows with both forces. */
export function span(
  part: Part,
  length: number,
  horizontal: number,
  up: number,
  down: number,
): { along: number; rise: number; gain: number } {
  const { weight, stiffness } = part;
  const a = horizontal / weight;
  const top = up / horizontal;
  const bottom = down / horizontal;
  const topSecant = secant(top);
  const bottomSecant = secant(bottom);
  // A piece that touches the bottom keeps its lower end's force and gets longer instead.
  const end = length < part.length ? 0 : bottom / bottomSecant;
  const stretch = stiffness === undefined ? 0 : length / stiffness;
  return {
    // asinh(top) − asinh(bottom) in one logarithm, which is several times faster.
    along: a * Math.log((top + topSecant) / (bottom + bottomSecant)) + horizontal * stretch,
    rise: a * (topSecant - bottomSecant) + ((up + down) / 2) * stretch,
    gain: (top / topSecant - end) / weight + stretch,
  };
}

/** Adds a piece that lies on the bottom; the tension falls along it by its weight down the slope and by friction. */
function lie(to: Walk, part: Part, length: number, slope: number, friction: number): void {
  const fall = part.weight * (Math.sin(slope) + friction * Math.cos(slope));
  const before = to.tensionAtAnchor;
  const after = Math.max(0, before - fall * length);
  let along = length;
  if (part.stiffness !== undefined) {
    const pulled = fall * length > before ? before / fall : length;
    along += ((before + after) * pulled) / (2 * part.stiffness);
  }
  to.reach += along * Math.cos(slope);
  to.height += along * Math.sin(slope);
  to.tensionAtAnchor = after;
}
