import type { State } from '../../../shared/state.ts';

/** What is told about steering, worked out once for figures, plan and ticks. */
export interface Steering {
  course: number;
  /** Starboard positive; absent: the heading is not known. */
  turn?: number;
  side?: 'port' | 'starboard' | 'steady';
  /** How far the course may be off, one sigma, degrees: place of boat and anchor seen from each other, and the compass. */
  sigma?: number;
  /** Nothing is asked within this many degrees, and the display's scale ends at so many: both shrink with the distance. */
  band: number;
  full: number;
  roundFirst: boolean;
}

/** Degrees from the middle to the end of the scale, as a multiple of the correction that fits the distance. */
const SCALE = 4;

export function steeringOf({ weigh, vessel }: Pick<State, 'weigh' | 'vessel'>): Steering | undefined {
  const guidance = weigh?.guidance;
  if (!guidance || weigh?.brokenOut) return undefined;
  const { course, turn, correction, roundFirst } = guidance;
  const { distance } = weigh;
  const seen = distance && (Math.atan2(distance.sigma, distance.value) * 180) / Math.PI;
  return {
    course,
    ...(turn !== undefined && { turn, side: sideOf(turn, correction.most) }),
    ...(seen !== undefined && { sigma: Math.hypot(seen, vessel.heading?.sigma ?? 0) }),
    band: correction.most,
    full: SCALE * correction.most,
    roundFirst: roundFirst === true,
  };
}

const sideOf = (turn: number, band: number) =>
  Math.abs(turn) <= band ? 'steady' : turn < 0 ? 'port' : 'starboard';
