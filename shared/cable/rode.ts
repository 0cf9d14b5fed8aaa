import { degrees, radians } from '../quantities/angle.ts';
import type { CableShape, Infeasible } from './shape.ts';
import { type Rode, walk } from './walk.ts';

/** How the rode hangs under a horizontal pull (N, ≥ 0). */
export function rodeUnder(rode: Rode, horizontal: number): CableShape {
  const checked = check(rode);
  if ('state' in checked) return checked;
  const { total, load, slope } = checked;
  if (!(horizontal >= 0 && horizontal < Number.POSITIVE_INFINITY))
    return { state: 'infeasible', reason: 'not-a-cable' };
  const { height } = rode;
  if (horizontal < 1e-9 * load) return slackRode(rode, total, slope);

  const least = horizontal * Math.tan(slope);
  let low = Math.max(least, 0);
  let high = Math.max(2 * low, load);
  for (let k = 0; k < 80 && walk(rode, slope, horizontal, high).height < height; k++) high *= 2;
  let up = Math.min(high, Math.max(low, least + load / 2));
  let found = walk(rode, slope, horizontal, up);
  for (let step = 0; step < 100; step++) {
    const short = height - found.height;
    if (short > 0) low = up;
    else high = up;
    if (Math.abs(short) <= 1e-12 * height || high - low <= 1e-15 * high) break;
    const newton = up + short / found.gain;
    if (Math.abs(newton - up) <= 1e-15 * up) break;
    up = newton > low && newton < high ? newton : (low + high) / 2;
    found = walk(rode, slope, horizontal, up);
  }
  const onBottom = Math.max(0, total - found.suspended);
  return {
    state: onBottom > 0 ? 'grounded' : 'lifted',
    horizontal,
    reach: found.reach,
    suspended: found.suspended,
    onBottom,
    angleAtRoller: degrees(Math.atan2(up, horizontal)),
    angleAtAnchor: Math.max(0, degrees(Math.atan2(found.lowest, horizontal) - slope)),
    tensionAtRoller: Math.hypot(up, horizontal),
    tensionAtAnchor: found.tensionAtAnchor,
  };
}

/** Which pull holds the roller at this horizontal distance (m) from the anchor. A rode that stretches is never too far, only overloaded. */
export function rodeAt(rode: Rode, reach: number): CableShape {
  const none = rodeUnder(rode, 0);
  if (none.state === 'infeasible' || none.state === 'taut') return none;
  if (!(reach >= 0 && reach < 1e6)) return { state: 'infeasible', reason: 'not-a-cable' };
  if (reach <= none.reach) return { ...none, reach };
  const reachUnder = (logarithm: number) => {
    const shape = rodeUnder(rode, Math.exp(logarithm));
    return shape.state === 'infeasible' ? Number.POSITIVE_INFINITY : shape.reach;
  };
  let low = Math.log(1e-6 * none.tensionAtRoller);
  let high = Math.log(STRONGEST * none.tensionAtRoller);
  let lowGap = reachUnder(low) - reach;
  let highGap = reachUnder(high) - reach;
  if (lowGap >= 0) return { ...none, reach };
  if (highGap <= 0) return { state: 'infeasible', reason: 'too-far' };
  // False position with halved weight of an end that stays (Illinois), on the logarithm of the pull.
  for (let step = 0, last = 0; step < 100 && high - low > 1e-13; step++) {
    const middle = step % 8 === 7 ? (low + high) / 2 : (low * highGap - high * lowGap) / (highGap - lowGap);
    const gap = reachUnder(middle) - reach;
    if (Math.abs(gap) <= 1e-13 * reach) return rodeUnder(rode, Math.exp(middle));
    if (gap < 0) {
      low = middle;
      lowGap = gap;
      if (last === -1) highGap /= 2;
      last = -1;
    } else {
      high = middle;
      highGap = gap;
      if (last === 1) lowGap /= 2;
      last = 1;
    }
  }
  return rodeUnder(rode, Math.exp((low + high) / 2));
}

/** No cable bears this many times the weight of the cable that hangs slack; beyond it the rode counts as too short. */
const STRONGEST = 1e5;

function check(rode: Rode): { total: number; load: number; slope: number } | Infeasible {
  const { parts, height, slope = 0, friction = 0 } = rode;
  const sane =
    parts.length > 0 &&
    parts.every(({ length, weight, stiffness = 1 }) => real(length) && real(weight) && stiffness > 0) &&
    real(height) &&
    Math.abs(slope) <= STEEPEST &&
    friction >= 0;
  if (!sane) return { state: 'infeasible', reason: 'not-a-cable' };
  const total = parts.reduce((sum, { length }) => sum + length, 0);
  const load = parts.reduce((sum, { length, weight }) => sum + length * weight, 0);
  return total <= height
    ? { state: 'infeasible', reason: 'too-short' }
    : { total, load, slope: radians(slope) };
}

/** What a cable may measure in metres and newtons. */
const real = (measure: number): boolean => measure > 1e-6 && measure < 1e6;
/** A bottom steeper than this holds neither anchor nor formula, degrees. */
const STEEPEST = 60;

/** With no pull the cable hangs straight down to a bottom that has risen by the reach times its slope. */
function slackRode(rode: Rode, total: number, slope: number): CableShape {
  const reach = ((total - rode.height) * Math.cos(slope)) / (1 - Math.sin(slope));
  const suspended = Math.min(total, Math.max(0, rode.height - reach * Math.tan(slope)));
  return {
    state: 'slack',
    horizontal: 0,
    reach,
    suspended,
    onBottom: total - suspended,
    angleAtRoller: 90,
    angleAtAnchor: 0,
    tensionAtRoller: hanging(rode, suspended),
    tensionAtAnchor: 0,
  };
}

/** Weight of the uppermost metres of a rode. */
function hanging({ parts }: Rode, metres: number): number {
  let left = metres;
  let sum = 0;
  for (let index = parts.length - 1; index >= 0 && left > 0; index--) {
    const { length, weight } = parts[index]!;
    sum += weight * Math.min(left, length);
    left -= length;
  }
  return sum;
}
