import { degrees } from '../quantities/angle.ts';
import { halfSpanOf, riseOf, STEEP } from './invert.ts';
import type { CableShape, Hang, Infeasible } from './shape.ts';

/**
 * Static catenary of a uniform, inextensible cable on a flat bottom without friction, in closed form. Sources:
 * O. M. Faltinsen, Sea Loads on Ships and Offshore Structures (1990), ch. 8, for the part-grounded cable; the lifted one is
 * derived in seamanship-physics.md §1.3. Submerged weight is used for the metre or two in air too, which makes the angle at
 * the roller a little too small.
 */

/** Half the difference of the catenary's parameters at its ends, below which it counts as straight: its pull then is 5000 × its own weight. */
const STRAIGHT = 1e-4;

/** Lengths that separate the states. All metres, `liftOff` newtons. */
export interface Reaches {
  /** Reach with no pull at all: L − h. */
  slack: number;
  /** Horizontal pull and reach at which the last link leaves the bottom: w(L²−h²)/2h. */
  liftOff: number;
  liftOffReach: number;
  /** Reach of a straight cable: √(L²−h²). */
  taut: number;
}

/** Where one state ends and the next begins, or why there is no cable to speak of. */
export function reaches({ length, height, weight }: Hang): ({ state: 'reaches' } & Reaches) | Infeasible {
  const fault = refuse(length, height, weight);
  if (fault) return fault;
  const square = (length - height) * (length + height);
  const taut = Math.sqrt(square);
  const a = square / (2 * height);
  return {
    state: 'reaches',
    slack: length - height,
    liftOff: weight * a,
    liftOffReach: 2 * a * Math.atanh(height / length),
    taut,
  };
}

/** How the cable hangs under a horizontal pull (N, ≥ 0). */
export function hangUnder(hang: Hang, horizontal: number): CableShape {
  const { length, height, weight } = hang;
  const fault = refuse(length, height, weight);
  if (fault) return fault;
  if (!(horizontal >= 0 && horizontal < Number.POSITIVE_INFINITY)) {
    return { state: 'infeasible', reason: 'not-a-cable' };
  }
  const a = horizontal / weight;
  // acosh(1 + h/a) = 2·asinh(√(h/2a)), which keeps its digits for a strong pull.
  const rise = 2 * Math.asinh(Math.sqrt(height / (2 * a)));
  if (!(rise < STEEP)) return slackAt(hang, length - height);
  const suspended = Math.sqrt(height * (height + 2 * a));
  if (suspended <= length) return grounded(hang, a, rise, suspended);
  const chord = Math.sqrt((length - height) * (length + height));
  return lifted(hang, a, Math.asinh(chord / (2 * a)), chord);
}

/** Which pull holds the roller at this horizontal distance from the anchor (m, ≥ 0), and how the cable hangs then. */
export function hangAt(hang: Hang, reach: number): CableShape {
  const { length, height, weight } = hang;
  const fault = refuse(length, height, weight);
  if (fault) return fault;
  if (!(reach >= 0 && reach < Number.POSITIVE_INFINITY)) {
    return { state: 'infeasible', reason: 'not-a-cable' };
  }
  const chord = Math.sqrt((length - height) * (length + height));
  // A metre of cable in a hundred thousand: beyond that the distance is not a matter of rounding.
  if (reach > chord * (1 + 1e-9)) return { state: 'infeasible', reason: 'too-far' };
  const bight = (length - reach) / height;
  if (bight >= 1) return slackAt(hang, reach);
  const atLiftOff = 2 * Math.atanh(height / length);
  if (reach <= ((length - height) * (length + height) * atLiftOff) / (2 * height)) {
    const rise = riseOf(bight);
    if (!(rise < STEEP)) return slackAt(hang, reach);
    const sinh = Math.sinh(rise / 2);
    const a = height / (2 * sinh * sinh);
    return grounded(hang, a, rise, Math.min(length, height / Math.tanh(rise / 2)));
  }
  const half = halfSpanOf((chord - reach) / reach);
  return lifted(hang, reach / (2 * half), half, chord);
}

/** How much further (m) the roller lies for one newton more of horizontal pull, m/N: the inverse of the cable's stiffness. 0 when taut or impossible. */
export function give({ length, height, weight }: Hang, horizontal: number): number {
  if (refuse(length, height, weight) || !(horizontal > 0)) return 0;
  const a = horizontal / weight;
  const suspended = Math.sqrt(height * (height + 2 * a));
  if (suspended <= length) {
    return (2 * Math.asinh(Math.sqrt(height / (2 * a))) - (2 * height) / suspended) / weight;
  }
  const half = Math.asinh(Math.sqrt((length - height) * (length + height)) / (2 * a));
  return (2 * (half - Math.tanh(half))) / weight;
}

/** What a cable may measure in metres and newtons: from a thousandth of a millimetre to a thousand kilometres. */
const real = (measure: number): boolean => measure > 1e-6 && measure < 1e6;

function refuse(length: number, height: number, weight: number): Infeasible | undefined {
  const sane = real(length) && real(height) && real(weight);
  if (!sane) return { state: 'infeasible', reason: 'not-a-cable' };
  return length <= height ? { state: 'infeasible', reason: 'too-short' } : undefined;
}

const slackAt = ({ length, height, weight }: Hang, reach: number): CableShape => ({
  state: 'slack',
  horizontal: 0,
  reach,
  suspended: height,
  onBottom: length - height,
  angleAtRoller: 90,
  angleAtAnchor: 0,
  tensionAtRoller: weight * height,
  tensionAtAnchor: 0,
});

function grounded(hang: Hang, a: number, rise: number, suspended: number): CableShape {
  const { length, height, weight } = hang;
  return {
    state: 'grounded',
    horizontal: a * weight,
    reach: length - suspended + a * rise,
    suspended,
    onBottom: length - suspended,
    angleAtRoller: degrees(Math.atan2(suspended, a)),
    angleAtAnchor: 0,
    tensionAtRoller: (a + height) * weight,
    tensionAtAnchor: a * weight,
  };
}

function lifted(hang: Hang, a: number, half: number, chord: number): CableShape {
  const { length, height, weight } = hang;
  const middle = Math.atanh(height / length);
  const slope = Math.max(0, Math.sinh(middle - half));
  if (half < STRAIGHT) {
    const angle = degrees(Math.asin(height / length));
    return {
      state: 'taut',
      reach: chord,
      suspended: length,
      onBottom: 0,
      angleAtRoller: angle,
      angleAtAnchor: angle,
    };
  }
  const horizontal = a * weight;
  return {
    state: 'lifted',
    horizontal,
    reach: 2 * a * half,
    suspended: length,
    onBottom: 0,
    angleAtRoller: degrees(Math.atan(Math.sinh(middle + half))),
    angleAtAnchor: degrees(Math.atan(slope)),
    tensionAtRoller: horizontal * Math.cosh(middle + half),
    tensionAtAnchor: horizontal * Math.hypot(1, slope),
  };
}
