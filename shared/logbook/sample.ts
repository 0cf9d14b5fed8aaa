import { underwater, windage } from '../cable/loads/form.ts';
import { streamAlong } from '../cable/loads/stream.ts';
import { windLoad } from '../cable/loads/wind.ts';
import { submergedWeight } from '../cable/nature.ts';
import type { EngineState } from '../engine.ts';
import { radians } from '../quantities/angle.ts';
import type { VesselView } from '../vessel/view.ts';
import { lieEvent, veered } from '../watch/watch.ts';
import type { Range, Sample } from './night.ts';
import type { NightRecord } from './record.ts';

/** To be called once a second: extremes of the night and since the last sample, from single readings. */
export function noteExtremes(
  { night: { summary }, running }: NightRecord,
  engine: EngineState,
  vessel: VesselView,
): void {
  const { at, windGround, depth, roller, positionDoubt } = vessel;
  const { extremes } = running;
  const { range, farthest } = engine.watch;
  if (range && roller && !positionDoubt)
    extremes.distanceMost = Math.max(range.distance, extremes.distanceMost ?? 0);
  if (farthest !== undefined && farthest > (summary.farthest?.distance ?? -1)) {
    const isNow = range && Math.abs(range.distance - farthest) < 1;
    // The bearing from the mark, since it tells where she was; `range` bears to the mark.
    summary.farthest = { at, distance: farthest, ...(isNow ? { bearing: (range.bearing + 180) % 360 } : {}) };
  }
  const metres = depth && (depth.value.surface ?? depth.value.measured);
  if (metres !== undefined) {
    summary.depth = widened(summary.depth, metres);
    extremes.depthLeast = Math.min(metres, extremes.depthLeast ?? metres);
  }
  if (windGround) {
    const { speed, from } = windGround.value;
    extremes.windMost = Math.max(speed, extremes.windMost ?? 0);
    if (speed > (summary.windMost?.speed ?? -1)) summary.windMost = { at: windGround.at, speed, from };
  }
  const load = pull(engine, vessel, running);
  if (load === undefined) return;
  extremes.load = Math.max(load, extremes.load ?? 0);
  const { workingLoad } = engine.settings.cable;
  if (load > (summary.load?.worst ?? 0))
    summary.load = {
      ...summary.load,
      at,
      worst: load,
      ...(workingLoad === undefined ? {} : { workingLoad, part: load / workingLoad }),
    };
  const steady = engine.watch.load?.worst;
  if (steady && summary.load && steady.value > (summary.load.steady?.value ?? 0))
    summary.load.steady = { at: steady.at, value: steady.value, sigma: steady.sigma };
}

export const widened = (range: Range | undefined, value: number): Range => ({
  least: Math.min(value, range?.least ?? value),
  most: Math.max(value, range?.most ?? value),
});

/**
 * Pull on the cable at the roller, N: T = H + w·h (catenary; w submerged weight per metre, h roller to bottom), H the steady force of
 * the wind of this second and of the stream. With no chain left on the bottom it is more; what sheering and seas add is not in it.
 * Undefined without wind or depth.
 */
function pull(
  { settings: { boat, cable } }: EngineState,
  { windGround, depth }: VesselView,
  { drift = 0, set = 0 }: { drift?: number; set?: number },
): number | undefined {
  const water = depth && (depth.value.surface ?? depth.value.measured);
  if (!windGround || water === undefined) return undefined;
  const { speed, from } = windGround.value;
  const wind = windLoad(windage(boat).ahead.value, speed);
  const stream = drift > 0 ? streamAlong(underwater(boat), drift) : 0;
  const cosine = Math.cos(radians(set - from - 180));
  const horizontal = Math.sqrt(Math.max(0, wind * wind + stream * stream + 2 * wind * stream * cosine));
  return horizontal + submergedWeight(cable.massPerMetre) * (water + boat.roller.height);
}

/** How she lies now, with the extremes since the last sample, which then begin anew. */
export function takeSample(record: NightRecord, engine: EngineState, vessel: VesselView): Sample {
  const {
    night: { summary },
    running,
  } = record;
  const { watch, settings } = engine;
  const { at, roller, positionDoubt } = vessel;
  const { distance, bearing, heading, depth, wind, stream, cable, anchor } = lieEvent(
    watch,
    settings,
    vessel,
    at,
  );
  const { circle, phase } = watch;
  const out = veered(watch, settings);
  const { extremes } = running;
  running.extremes = {};
  delete running.drift;
  delete running.set;
  if (stream) {
    running.drift = stream.drift;
    running.set = stream.set;
    if (stream.drift > (summary.streamMost?.drift ?? -1)) summary.streamMost = { at, ...stream };
  }
  if (out !== undefined) summary.veered = widened(summary.veered, out);
  if (anchor && anchor.probability >= 0.5 && anchor.moved > (summary.movedMost?.moved ?? 0))
    summary.movedMost = { at, moved: anchor.moved, sigma: anchor.sigma, probability: anchor.probability };
  return {
    at,
    ...(roller ? { lat: places(roller.value.lat, 8), lon: places(roller.value.lon, 8) } : {}),
    ...rounded({
      distance,
      distanceMost: extremes.distanceMost,
      bearing,
      heading,
      depth,
      depthLeast: extremes.depthLeast,
      windSpeed: wind?.speed,
      windMost: extremes.windMost,
      windFrom: wind?.from,
      drift: stream?.drift,
      set: stream?.set,
      reach: cable?.reach,
      moved: anchor?.moved,
      movedBearing: anchor?.bearing,
      sigma: anchor?.sigma,
      probability: anchor?.probability,
      veered: out,
      circle: circle?.radius,
      load: extremes.load,
    }),
    ...(cable?.state === undefined ? {} : { cable: cable.state }),
    ...(phase === 'no-mark' ? {} : { phase }),
    ...(positionDoubt ? { doubtful: true as const } : {}),
  };
}

const places = (value: number, digits: number): number => Number(value.toFixed(digits));

type Numbers = {
  [K in keyof Sample as Sample[K] extends number | undefined ? K : never]?: number | undefined;
};

/** A thousandth is finer than anything that is measured here; what is unknown is left out. */
function rounded(values: Numbers): Partial<Sample> {
  const known: Record<string, number> = {};
  for (const [name, value] of Object.entries(values)) if (value !== undefined) known[name] = places(value, 3);
  return known as Partial<Sample>;
}
