import type { Night, NightAlert, Sample } from '../../../shared/logbook/night.ts';
import { direction } from '../../../shared/quantities/angle.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { State } from '../../../shared/state.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import { ofThePast } from '../../past.ts';
import { plane, unit } from '../../projection.ts';

/** How she lay at a moment, by the samples of the night alone: as fine as they are, without spreads. Pure. */

/** After so many steps without another, a sample says nothing of the moment. */
const HOLDS = 1.5;

/** Index of the last sample at or before `at`; -1: none. */
export function indexAt(strips: readonly Sample[], at: number): number {
  let [low, high] = [0, strips.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (strips[middle]!.at <= at) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The sample that tells of `at`; undefined in a gap. */
export function sampleAt({ strips, step }: Pick<Night, 'strips' | 'step'>, at: number): Sample | undefined {
  const sample = strips[indexAt(strips, at)];
  return sample && at - sample.at <= step * HOLDS ? sample : undefined;
}

/** Where the roller was until `at`. */
export function trackUntil({ strips }: Pick<Night, 'strips'>, at: number): TrackPoint[] {
  const points: TrackPoint[] = [];
  for (const { at: then, lat, lon } of strips) {
    if (then > at) break;
    if (lat !== undefined && lon !== undefined) points.push({ at: then, lat, lon });
  }
  return points;
}

/** A point so many metres away, by the flat plane that the plan is drawn in: good to centimetres at anchor. */
export function away(from: LatLon, distance: number, bearing: number): LatLon {
  const project = plane(from);
  const east = project({ lat: from.lat, lon: from.lon + 0.001 }).x / 0.001;
  const north = -project({ lat: from.lat + 0.001, lon: from.lon }).y / 0.001;
  const { x, y } = unit(bearing);
  return { lat: from.lat - (y * distance) / north, lon: from.lon + (x * distance) / east };
}

/** The mark in force: the night's own, or by the sample's distance and bearing where it was set more than once. */
export function markAt({ summary }: Pick<Night, 'summary'>, sample: Sample | undefined): LatLon {
  const { lat, lon, distance, bearing } = sample ?? {};
  if (
    summary.marks <= 1 ||
    lat === undefined ||
    lon === undefined ||
    distance === undefined ||
    bearing === undefined
  )
    return summary.mark;
  return away({ lat, lon }, distance, bearing);
}

/** What stood on the alert list at `at`. */
export function alertsAt(alerts: readonly NightAlert[], at: number): NightAlert[] {
  return alerts.filter(({ changes }) => {
    const last = changes.findLast((change) => change.at <= at);
    return last !== undefined && last.state !== 'normal';
  });
}

/** What people had told holds on through a gap. */
const inForce = ({ circle, veered }: Partial<Sample> = {}, at: number): Sample => ({
  at,
  ...(circle === undefined ? {} : { circle }),
  ...(veered === undefined ? {} : { veered }),
});

/** In a silence nothing is known, and without a position nothing of where she lay, however young the sample before it is. */
export function heard(night: Night, at: number): Sample {
  const sample = sampleAt(night, at);
  const until = night.summary.to ?? night.summary.upTo;
  const missing = night.gaps.filter(({ from, to = until }) => from <= at && at < to).map(({ kind }) => kind);
  if (!sample || missing.includes('silence')) return inForce(night.strips[indexAt(night.strips, at)], at);
  if (!missing.includes('position')) return sample;
  const { lat: _lat, lon: _lon, distance: _distance, bearing: _bearing, ...rest } = sample;
  const {
    moved: _moved,
    movedBearing: _movedBearing,
    sigma: _sigma,
    probability: _probability,
    ...kept
  } = rest;
  return kept;
}

/** The state that plan and side view are drawn from. Spreads are not kept in samples: they are 0 here, and the page says so. */
export function pastState(night: Night, at: number): State {
  const sample = heard(night, at);
  const { summary, settings } = night;
  const known = <T>(value: T) => ({ value, at: sample.at, age: at - sample.at, source: 'sample' });
  const { lat, lon, heading, windSpeed, windFrom, depth, drift, set, distance, bearing, reach } = sample;
  const mark = { ...summary.mark, ...markAt(night, sample.lat === undefined ? undefined : sample) };
  const { moved, movedBearing, sigma } = sample;
  const hasSurface = settings.boat.sounder.belowWaterline !== undefined;
  return ofThePast({
    at,
    ...(summary.simulated === undefined ? {} : { simulated: summary.simulated }),
    report: '',
    boat: settings.boat,
    cable: settings.cable,
    vessel: {
      at,
      ...(lat !== undefined && lon !== undefined ? { roller: { ...known({ lat, lon }), sigma: 0 } } : {}),
      ...(heading === undefined ? {} : { heading: { ...known(heading), sigma: 0, from: 'true' } }),
      ...(windSpeed === undefined || windFrom === undefined
        ? {}
        : { windGround: known({ from: windFrom, speed: windSpeed }) }),
      ...(drift === undefined || set === undefined ? {} : { stream: known({ drift, set }) }),
      ...(depth === undefined
        ? {}
        : { depth: known(hasSurface ? { measured: depth, surface: depth } : { measured: depth }) }),
      ages: {},
      sources: {},
    },
    watch: {
      phase: sample.phase ?? 'watching',
      mark,
      limits: settings.limits,
      standDown: [],
      ...(sample.veered === undefined ? {} : { veered: sample.veered }),
      ...(sample.circle === undefined
        ? {}
        : { circle: { radius: sample.circle, computed: false, explanation: '' } }),
      ...(distance === undefined ? {} : { distance: { value: distance, sigma: 0 } }),
      ...(bearing === undefined ? {} : { bearing }),
      ...(reach === undefined || sample.cable === undefined
        ? {}
        : { cable: { reach: { value: reach, sigma: 0 }, state: sample.cable, certainty: 0 } }),
      ...(moved === undefined || sigma === undefined
        ? {}
        : {
            anchor: {
              moved,
              sigma,
              probability: sample.probability ?? 0,
              ...(movedBearing === undefined ? {} : { bearing: movedBearing }),
              ...away(mark, moved, movedBearing ?? 0),
              ...eastNorth(moved, movedBearing ?? 0),
              ellipse: { major: sigma, minor: sigma, bearing: 0 },
            },
          }),
    },
    neighbours: [],
    alerts: [],
    inputs: [],
    notes: [],
    pages: [],
  });
}

function eastNorth(distance: number, bearing: number): { east: number; north: number } {
  const { x, y } = unit(direction(bearing));
  return { east: x * distance, north: -y * distance };
}
