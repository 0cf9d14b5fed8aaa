import type { Finding } from '../../alerts/alert.ts';
import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { WatchState } from '../state.ts';
import type { WatchView } from '../view.ts';
import { dragFast, dragSlow } from '../words.ts';
import { expectedFrom, lying, moved } from './filter.ts';
import { BLOCK, EVIDENCE } from './model.ts';
import type { Reading } from './reading.ts';
import type { DragState } from './state.ts';

/** How far the anchor has moved the way the cable pulls: metres and sigma. */
export function movedAlongPull(drag: DragState): { value: number; sigma: number } {
  const { east, north, varEast, varNorth, covariance } = moved(drag.filter);
  const size = Math.hypot(east, north);
  const pull = drag.pull ?? (size > 0 ? { east: east / size, north: north / size } : { east: 0, north: 1 });
  const value = east * pull.east + north * pull.north;
  const variance =
    varEast * pull.east ** 2 + varNorth * pull.north ** 2 + 2 * covariance * pull.east * pull.north;
  return { value, sigma: Math.sqrt(Math.max(variance, 1e-6)) };
}

/** Looks at the fix that has just been followed: the slow path asks the filter, the fast path the last seconds themselves. */
export function weighEvidence(drag: DragState, reading: Reading, at: number): void {
  const { value, sigma } = movedAlongPull(drag);
  const { alarm, caution, fast } = EVIDENCE;
  const beyond = (step: { metres: number; sigmas: number }) =>
    value > step.metres && value > step.sigmas * sigma;

  const loose = watchOutside(drag, reading);
  if (loose !== undefined && drag.level !== 'alarm') {
    raise(drag, 'alarm', at, dragFast({ farther: loose, seconds: fast.seconds, reading }));
  }
  if (drag.level === 'alarm' && value < alarm.ends * sigma && !drag.outside)
    settle(drag, value > caution.ends * sigma ? 'caution' : undefined, at);
  if (drag.level === 'caution' && value < caution.ends * sigma) settle(drag, undefined, at);
  if (beyond(alarm) && drag.level !== 'alarm')
    raise(drag, 'alarm', at, dragSlow({ value, sigma, bearing: bearingOf(drag), reading }));
  else if (beyond(caution) && drag.level === undefined)
    raise(drag, 'caution', at, dragSlow({ value, sigma, bearing: bearingOf(drag), reading }));
}

function raise(drag: DragState, level: 'caution' | 'alarm', at: number, why: string): void {
  drag.level = level;
  drag.since = at;
  drag.why = why;
}

function settle(drag: DragState, level: 'caution' | undefined, at: number): void {
  if (level) drag.level = level;
  else {
    delete drag.level;
    delete drag.why;
  }
  drag.since = at;
}

/** Metres farther out than a held anchor allows, once that has lasted long enough while she moves outwards; else undefined. */
function watchOutside(drag: DragState, reading: Reading): number | undefined {
  const held = drag.before[0];
  if (!held) return undefined;
  const { fast } = EVIDENCE;
  const sigma = Math.hypot(BLOCK.sigma, BLOCK.gust * reading.gain);
  const farther = reading.excess - expectedFrom(held, reading);
  if (farther < Math.max(fast.metres, fast.sigmas * sigma)) {
    delete drag.outside;
    return undefined;
  }
  drag.outside ??= { since: reading.at, fixes: 0, from: reading.distance };
  drag.outside.fixes++;
  const lasted = reading.at - drag.outside.since;
  const confirmed =
    reading.outwards === undefined ? farther > 2 * fast.metres : reading.outwards > fast.speed;
  return lasted >= fast.seconds && drag.outside.fixes >= fast.fixes && confirmed ? farther : undefined;
}

const bearingOf = (drag: DragState): number => {
  const { east, north } = moved(drag.filter);
  return direction(degrees(Math.atan2(east, north)));
};

/** The alert, while there is one. */
export function dragFinding(drag: DragState | undefined): Finding | undefined {
  if (!drag?.level) return undefined;
  const { value } = movedAlongPull(drag);
  return {
    kind: 'drag',
    priority: drag.level,
    text: drag.why ?? '',
    value: Math.max(0, value),
    limit: EVIDENCE[drag.level].metres,
  };
}

/** What pages show of the anchor: how far it has moved, and where it lies by now. */
export function anchorView(state: WatchState, _vessel: VesselView): WatchView['anchor'] {
  const { drag, mark } = state;
  if (!drag || !mark) return undefined;
  const { east, north } = moved(drag.filter);
  const { value, sigma } = movedAlongPull(drag);
  const place = lying(drag.filter);
  const { lat, lon } = localPlane(mark).toLatLon(place);
  const size = Math.hypot(east, north);
  return {
    moved: size,
    ...(size > 0.5 ? { bearing: bearingOf(drag) } : {}),
    sigma,
    probability: normalBelow((value - EVIDENCE.caution.metres / 2) / sigma),
    lat,
    lon,
  };
}

/** Standard normal distribution function, Abramowitz & Stegun 26.2.17 (|error| < 7.5e-8). */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
