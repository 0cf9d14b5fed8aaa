import { underwater, windage } from '../cable/loads/form.ts';
import { streamAcross } from '../cable/loads/stream.ts';
import { windLoad } from '../cable/loads/wind.ts';
import { degrees, radians, turn } from '../quantities/angle.ts';
import type { Boat } from '../settings.ts';
import { type Course, courseToSteer, windToHold } from '../water/steer.ts';
import { APPROACH } from './limits.ts';
import type { GuidanceView } from './view.ts';

export interface GuidanceRequest {
  boat: Boat;
  /** Roller to anchor: metres and degrees true. */
  distance: number;
  bearing: number;
  /** Speed through the water that the crew has chosen, m/s. */
  speed?: number;
  heading?: number;
  closing?: number;
  wind?: { from: number; speed: number };
  stream?: { set: number; drift: number };
  /** That stream is a measured drift with the leeway in it. */
  leewayIncluded?: boolean;
  /** Depth, m. */
  depth?: number;
  /** The cable surely hangs slack: wait for the windlass. */
  slack?: boolean;
  /** Almost over the anchor. */
  nearEnd?: boolean;
}

/** A course that makes good less than this towards the anchor is none, m/s. */
const LEAST_MADE_GOOD = 0.1;
const STEP = 0.1;
const ROUNDS = 6;

/**
 * What the helm steers to come up to the anchor: a course at a slow speed through the water, allowing for stream and leeway. When
 * that is too slow for the stream it is the least speed that will do. Or, in words, why there is none.
 */
export function guide(request: GuidanceRequest): { guidance: GuidanceView } | { none: string } {
  const { distance, heading } = request;
  const chosen = (request.speed ?? APPROACH.speed) * Math.max(0.5, Math.min(1, distance / 20));
  let found: Steered | undefined;
  let why: Extract<Course, { state: 'none' }>['reason'] = 'no-speed';
  for (let speed = chosen; speed <= Math.max(chosen, APPROACH.most) && !found; speed += STEP) {
    const tried = steer(request, speed);
    if (tried.state === 'none') why = tried.reason;
    else if (tried.madeGood >= LEAST_MADE_GOOD) found = tried;
    else why = 'set-back';
  }
  if (!found) return { none: NONE[why] };
  const { course, madeGood, leeway, throughWater, windAngle } = found;
  const off = heading === undefined ? undefined : turn(heading, course);
  const roundFirst = off !== undefined && Math.abs(off) > APPROACH.roundFirst;
  const closing = roundFirst ? 0 : closingFor(request);
  const ahead = clamp((closing - (request.closing ?? closing)) / APPROACH.full, -1, 1);
  return {
    guidance: {
      course,
      ...(off === undefined ? {} : { turn: off }),
      ...(roundFirst ? { roundFirst: true as const } : {}),
      throughWater,
      madeGood,
      leeway,
      ...(windAngle === undefined ? {} : { windAngle }),
      closing,
      ahead,
      engine: engineFor(ahead, found, closing),
      correction: {
        most: Math.round(clamp(distance / 2, 4, 20)),
        every: Math.round(clamp(distance / 5, 1, 8)),
      },
      scale: Math.max(10, Math.ceil((1.3 * distance) / 5) * 5),
    },
  };
}

const NONE = {
  'set-aside':
    'The stream sets her off faster than a slow approach: wait for slack water, or come up from down-stream.',
  'set-back': 'She would be carried back at any slow speed: wait for slack water.',
  'no-speed': 'There is no course without a speed.',
};

interface Steered {
  state: 'steered';
  course: number;
  madeGood: number;
  throughWater: number;
  leeway: number;
  windAngle?: number;
}

/** Course with leeway, which depends on the course itself: a few rounds settle it. */
function steer(
  { boat, bearing, wind, stream, depth, leewayIncluded }: GuidanceRequest,
  speed: number,
): Steered | Extract<Course, { state: 'none' }> {
  const { set, drift } = stream ?? { set: 0, drift: 0 };
  const sideways = wind && !leewayIncluded ? sidewaysShare(boat, depth) : 0;
  let leeway = 0;
  for (let round = 0; ; round++) {
    const course = courseToSteer({ track: bearing, speed, set, drift, leeway });
    if (course.state === 'none') return course;
    const ground = { speed: course.speedMadeGood, course: bearing };
    const felt = wind && windToHold(course.heading, ground, wind);
    if (round === ROUNDS || !felt) {
      return {
        state: 'steered',
        course: course.heading,
        madeGood: course.speedMadeGood,
        throughWater: speed,
        leeway,
        ...(felt?.angle === undefined ? {} : { windAngle: felt.angle }),
      };
    }
    const across = sideways * felt.speed * Math.sin(radians(felt.angle ?? 0));
    const next = -degrees(Math.atan2(across, speed));
    leeway = clamp((leeway + next) / 2, -APPROACH.mostLeeway, APPROACH.mostLeeway);
  }
}

/** Sideways drift as a share of the wind from abeam, where its force and the water's are equal (both grow with the square). */
function sidewaysShare(boat: Boat, depth: number | undefined): number {
  const air = windLoad(windage(boat).abeam.value, 1);
  return Math.sqrt(air / streamAcross(underwater(boat), 1, depth));
}

/** Closing speed that fits: the shorter, the slower; none while the cable hangs slack, so that she never overruns it. */
function closingFor({ distance, slack, nearEnd }: GuidanceRequest): number {
  if (slack) return 0;
  if (nearEnd) return APPROACH.last;
  return clamp(distance * APPROACH.perMetre, APPROACH.slowest, APPROACH.fastest);
}

function engineFor(
  ahead: number,
  { madeGood, throughWater }: Steered,
  closing: number,
): GuidanceView['engine'] {
  if (ahead >= APPROACH.engine) return 'ahead';
  if (ahead >= APPROACH.gently) return 'ahead-gently';
  if (ahead <= -APPROACH.engine) return 'astern-gently';
  if (ahead <= -APPROACH.gently) return 'neutral';
  // As she should be: idle ahead keeps her there, unless the stream alone carries her.
  return madeGood - throughWater >= closing ? 'neutral' : 'ahead-gently';
}

const clamp = (value: number, least: number, most: number): number => Math.max(least, Math.min(most, value));
