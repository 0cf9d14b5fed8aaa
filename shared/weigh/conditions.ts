import type { Estimate } from '../quantities/estimate.ts';
import { toKnots } from '../quantities/units.ts';
import type { VesselView } from '../vessel/view.ts';
import type { CheckItem } from './check-view.ts';
import { CHECK } from './limits.ts';
import { course, knots, metres } from './words.ts';

/** What the engine lends to the departure check. Absent is unknown. */
export interface Conditions {
  vessel: VesselView;
  /** Where she has been, with wind (m/s) and depth (m) as they were then; oldest first. */
  track: readonly { at: number; wind?: number; depth?: number }[];
  stream?: { set: Estimate; drift: Estimate };
  streamUnknown?: string;
  /** Which of wind and stream she lies to, and the angle between where they push. */
  lieTo?: 'wind' | 'stream' | 'both';
  divergence?: number;
  /** When the stream is slack next, UNIX seconds; sigma in seconds. */
  slack?: Estimate;
  /** Roller to anchor. */
  distance?: Estimate;
  /** How sure it is that the anchor has moved, and by how much. */
  anchor?: { moved: number; probability: number };
  /** The crew's own limits. */
  limits: { depthBelow?: number; windAbove?: number };
  neighbours: readonly Near[];
}

export interface Near {
  name: string;
  /** From hull to hull, metres. */
  distance?: number;
  inCircle?: boolean;
  overOurAnchor?: boolean;
  dragging?: boolean;
}

/** All that hawse can measure for a departure, each with whether it is good, to be looked at, or not known. */
export const conditions = (given: Conditions): CheckItem[] => [
  wind(given),
  stream(given),
  depth(given),
  neighbours(given),
  position(given),
  lie(given),
];

/** Mean of what the track tells between two ages, seconds; undefined with less than a few points. */
function mean(given: Conditions, what: 'wind' | 'depth', from: number, to: number): number | undefined {
  const { at } = given.vessel;
  let sum = 0;
  let count = 0;
  for (const point of given.track) {
    const value = point[what];
    const old = at - point.at;
    if (value === undefined || old > from || old < to) continue;
    sum += value;
    count++;
  }
  return count < CHECK.leastPoints ? undefined : sum / count;
}

const lately = (given: Conditions, what: 'wind' | 'depth') => mean(given, what, CHECK.recent, 0);
/** One hour before that, over as long. */
const anHourAgo = (given: Conditions, what: 'wind' | 'depth') => mean(given, what, 3600 + CHECK.recent, 3600);

function wind(given: Conditions): CheckItem {
  const { vessel, limits } = given;
  const now = vessel.windGround?.value ?? vessel.windApparent?.value;
  if (!now) return { item: 'wind', state: 'unknown', text: 'No wind is measured.' };
  const speed = lately(given, 'wind') ?? now.speed;
  const before = anHourAgo(given, 'wind');
  const from = 'from' in now ? ` from ${course(now.from)}` : ' (apparent)';
  const rise = before === undefined ? 0 : speed - before;
  const freshens = rise >= CHECK.freshens;
  const trend =
    before === undefined
      ? 'trend not known yet'
      : freshens
        ? `freshening, ${knotsWhole(before)} an hour ago`
        : rise <= -CHECK.freshens
          ? `easing, ${knotsWhole(before)} an hour ago`
          : 'steady over the hour';
  const strong = speed >= Math.min(CHECK.strong, limits.windAbove ?? CHECK.strong);
  return {
    item: 'wind',
    state: strong || freshens ? 'look' : 'good',
    text: `Wind ${knotsWhole(speed)}${from}, ${trend}.`,
  };
}

const knotsWhole = (speed: number): string => `${Math.round(toKnots(speed))} kn`;

function stream({ vessel, stream: water, streamUnknown, divergence, slack }: Conditions): CheckItem {
  const until = slack && `slack water in ${minutes(slack.value - vessel.at)} (± ${minutes(2 * slack.sigma)})`;
  if (!water) {
    const why = streamUnknown ? `: ${streamUnknown.replace(/\.$/, '')}` : '';
    return { item: 'stream', state: 'unknown', text: `Stream not known${why}${until ? `; ${until}` : ''}.` };
  }
  const { value: drift } = water.drift;
  if (drift < CHECK.weakStream) return { item: 'stream', state: 'good', text: 'Hardly any stream.' };
  const fights = divergence !== undefined && Math.abs(divergence) > CHECK.fights;
  const how = fights ? `, pushing ${Math.round(Math.abs(divergence))}° away from the wind` : '';
  return {
    item: 'stream',
    state: drift >= CHECK.strongStream || fights ? 'look' : 'good',
    text: `Stream ${knots(drift)} to ${course(water.set.value)}${how}; ${until ?? 'time to slack water not known'}.`,
  };
}

const minutes = (seconds: number): string =>
  seconds < 5400 ? `${Math.max(1, Math.round(seconds / 60))} min` : `${(seconds / 3600).toFixed(1)} h`;

function depth(given: Conditions): CheckItem {
  const now = given.vessel.depth?.value;
  if (!now) return { item: 'depth', state: 'unknown', text: 'No depth is measured.' };
  const before = anHourAgo(given, 'depth');
  const recent = lately(given, 'depth');
  const change = before === undefined || recent === undefined ? undefined : recent - before;
  const trend =
    change === undefined || Math.abs(change) < CHECK.depthChange
      ? ''
      : `, ${metres(Math.abs(change))} ${change < 0 ? 'less' : 'more'} than an hour ago`;
  const { keel } = now;
  if (keel === undefined) {
    const text = `${metres(now.surface ?? now.measured)} ${now.surface === undefined ? 'below the sounder' : 'deep'}${trend}; how much is under the keel is not known.`;
    return { item: 'depth', state: 'look', text };
  }
  const soon = keel + Math.min(0, change ?? 0);
  const tooLittle =
    given.limits.depthBelow !== undefined && (now.surface ?? Infinity) < given.limits.depthBelow;
  return {
    item: 'depth',
    state: soon < CHECK.keel || tooLittle ? 'look' : 'good',
    text: `${metres(Math.max(0, keel))} under the keel here${trend}; on the way out look at the chart.`,
  };
}

function neighbours({ neighbours: all }: Conditions): CheckItem {
  if (all.length === 0)
    return {
      item: 'neighbours',
      state: 'unknown',
      text: 'hawse knows of no other vessel: look who lies near, and over the anchor.',
    };
  const near = [...all].sort((a, b) => (a.distance ?? Infinity) - (b.distance ?? Infinity));
  const concerns = near.flatMap((one) => {
    if (one.overOurAnchor) return [`${one.name} lies over our anchor`];
    if (one.dragging) return [`${one.name} drags`];
    if (one.distance !== undefined && one.distance < CHECK.near) return [`${one.name} is ${far(one)} off`];
    return one.inCircle ? [`${one.name} lies in our circle`] : [];
  });
  if (concerns.length > 0) return { item: 'neighbours', state: 'look', text: `${concerns.join('; ')}.` };
  return {
    item: 'neighbours',
    state: 'good',
    text: `Nearest vessel known: ${near[0]!.name}${near[0]!.distance === undefined ? '' : `, ${far(near[0]!)} off`}. Not all send AIS: look round.`,
  };
}

const far = ({ distance = 0 }: Near): string => metres(Math.max(0, Math.round(distance)));

function position({ vessel, distance }: Conditions): CheckItem {
  const { roller, positionDoubt, heading } = vessel;
  if (!roller) return { item: 'position', state: 'unknown', text: 'No position.' };
  if (positionDoubt)
    return { item: 'position', state: 'look', text: `Position doubtful: ${positionDoubt.reason}.` };
  const sigma = distance?.sigma ?? roller.sigma;
  const known = `Roller to anchor known to ± ${Math.ceil(2 * sigma)} m`;
  if (!heading)
    return { item: 'position', state: 'look', text: `${known}; no heading, so no lead and no guidance.` };
  return { item: 'position', state: sigma > CHECK.sigma ? 'look' : 'good', text: `${known}.` };
}

function lie({ lieTo, distance, anchor }: Conditions): CheckItem {
  if (anchor && anchor.probability > CHECK.moved)
    return {
      item: 'lie',
      state: 'look',
      text: `The anchor has probably moved ${metres(anchor.moved)}: the mark may be wrong.`,
    };
  const far = distance ? ` ${metres(distance.value)} from the anchor` : '';
  if (lieTo === undefined)
    return { item: 'lie', state: 'unknown', text: `She lies${far}; to wind or stream is not known.` };
  const to = { wind: 'the wind', stream: 'the stream', both: 'wind and stream' }[lieTo];
  return { item: 'lie', state: 'good', text: `She lies to ${to}${far && `,${far}`}.` };
}
