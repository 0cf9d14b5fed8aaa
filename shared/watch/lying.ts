import { predictedHeading } from '../cable/lie.ts';
import { reachNow } from '../cable/reach.ts';
import { cableState } from '../cable/state.ts';
import { degrees, direction } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { towards } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { divergence, lyingTo } from '../water/lie.ts';
import { createStream, observeStream, type StreamState } from '../water/stream.ts';
import { streamEstimate } from '../water/stream-estimate.ts';
import { veered, type WatchState } from './state.ts';
import type { WatchView } from './view.ts';

/** How she lies: her mean heading over the sheer, and what her log and her sheer tell of the stream. Plain data. */
export interface LyingState {
  stream: StreamState;
  /** Running mean of the heading's unit vector; its time, UNIX seconds. */
  east: number;
  north: number;
  at: number;
}

/** Sheer takes half a minute to five; the mean heading is taken over about two. Seconds. */
const SHEER = 120;
/** Readings that are put together may not be older than this, seconds. */
const TOGETHER = 3;
/** Uncertainty of a stream that an instrument tells: degrees, m/s and part of the drift [P]. */
const INSTRUMENT = { set: 10, drift: 0.05, part: 0.1 };

/** To be called at each fresh fix, with or without a mark. */
export function followLie(state: WatchState, vessel: VesselView): void {
  const { heading, waterSpeed, sog, cog, at } = vessel;
  if (!heading || heading.age > TOGETHER) return;
  state.lying ??= { stream: createStream(), east: 0, north: 0, at };
  const lying = state.lying;
  const part = 1 - Math.exp(-Math.max(0.1, at - lying.at) / SHEER);
  const first = lying.east === 0 && lying.north === 0;
  const now = towards(1, heading.value);
  lying.east += (first ? 1 : part) * (now.east - lying.east);
  lying.north += (first ? 1 : part) * (now.north - lying.north);
  lying.at = at;
  if (!waterSpeed || waterSpeed.age > TOGETHER || !sog || sog.age > TOGETHER) return;
  if (!cog && sog.value > 0.1) return;
  observeStream(lying.stream, {
    heading: heading.value,
    ...waterSpeed.value,
    velocity: cog ? towards(sog.value, cog.value) : { east: 0, north: 0 },
    at,
  });
}

type Lie = NonNullable<WatchView['lie']>;
/** The stream as it is known, and how far wind and stream push apart. */
export type Push = Pick<Lie, 'stream' | 'streamUnknown' | 'divergence'>;

/** How she lies in wind and stream, and what her cable does, for people. Members that are not known are left out. */
export function lieNow(
  state: WatchState,
  settings: Settings,
  vessel: VesselView,
  distance: Estimate | undefined,
): Pick<WatchView, 'cable' | 'lie'> {
  const push = pushNow(state, vessel);
  const cable = cableNow(state, settings, vessel, distance, push);
  return {
    ...(cable ? { cable } : {}),
    ...(push ? { lie: lieIn(state, settings, vessel, push) } : {}),
  };
}

/** What pushes her, as far as it is known: cheap, unlike the heading that it makes her lie at. */
export function pushNow(state: WatchState, vessel: VesselView): Push | undefined {
  const known = streamNow(state, vessel);
  const wind = vessel.windGround?.value;
  if (!known?.stream || !wind) return known;
  return { ...known, divergence: divergence(wind.from, known.stream.set.value) };
}

function streamNow(state: WatchState, vessel: VesselView): Pick<Lie, 'stream' | 'streamUnknown'> | undefined {
  if (vessel.stream) {
    const { set, drift } = vessel.stream.value;
    const sigma = INSTRUMENT.drift + INSTRUMENT.part * drift;
    const from = 'instrument';
    return { stream: { set: { value: set, sigma: INSTRUMENT.set }, drift: { value: drift, sigma }, from } };
  }
  if (!state.lying) return undefined;
  const found = streamEstimate(state.lying.stream, vessel.at);
  return 'unknown' in found ? { streamUnknown: found.unknown } : { stream: { ...found, from: 'sheer' } };
}

function lieIn(
  { lying }: WatchState,
  { boat }: Settings,
  { windGround, depth }: VesselView,
  push: Push,
): Lie {
  const wind = windGround?.value;
  const stream = push.stream;
  const mean = lying && Math.hypot(lying.east, lying.north) > 0.3 ? lying : undefined;
  const heading = mean && direction(degrees(Math.atan2(mean.east, mean.north)));
  const predicted = predictedHeading(
    boat,
    {
      ...(wind ? { wind } : {}),
      ...(stream
        ? {
            stream: {
              set: stream.set.value,
              drift: stream.drift.value,
              setSigma: stream.set.sigma,
              driftSigma: stream.drift.sigma,
            },
          }
        : {}),
    },
    depth?.value.surface,
    heading,
  );
  const to =
    heading !== undefined && wind && stream ? lyingTo(heading, wind.from, stream.set.value) : undefined;
  return {
    ...push,
    ...(to ? { to } : {}),
    ...(predicted ? { predictedHeading: predicted.heading } : {}),
  };
}

/** How far the cable reaches in this wind and stream, and its state; undefined while either is not known. */
export function cableNow(
  state: WatchState,
  settings: Settings,
  { depth, windGround, windApparent }: VesselView,
  distance: Estimate | undefined,
  push: Push | undefined,
): WatchView['cable'] {
  const { boat, cable } = settings;
  const out = state.mark && veered(state, settings);
  const water = depth?.value.surface ?? state.circle?.depth;
  if (out === undefined || water === undefined || !distance) return undefined;
  const windSpeed = windGround?.value.speed ?? windApparent?.value.speed;
  const now = reachNow({
    veered: out,
    depth: water,
    rollerHeight: boat.roller.height,
    massPerMetre: cable.massPerMetre,
    ...(cable.length === undefined ? {} : { chainLength: cable.length }),
    boat,
    ...(windSpeed === undefined ? {} : { windSpeed }),
    ...(push?.stream ? { streamDrift: push.stream.drift.value } : {}),
    ...(push?.divergence === undefined ? {} : { divergence: push.divergence }),
  });
  // At anchor she lies where her cable balances wind and stream, so both tell the same length; with the engine on, only her place does.
  const lies =
    now && windSpeed !== undefined && state.phase === 'watching' ? together(distance, now.reach) : distance;
  const how = cableState({ distance: lies, veered: out, height: water + boat.roller.height });
  return now && how && { reach: now.reach, ...how };
}

/** Two estimates of one length, by the inverse of their variances. */
function together(a: Estimate, b: Estimate): Estimate {
  const [va, vb] = [a.sigma ** 2, b.sigma ** 2];
  return { value: (a.value * vb + b.value * va) / (va + vb), sigma: Math.sqrt((va * vb) / (va + vb)) };
}
