import { distanceBearing } from '../earth/geodesic.ts';
import type { VesselView } from '../vessel/view.ts';
import { TRACK } from './limits.ts';
import type { TrackPoint } from './view.ts';

export interface TrackKept {
  /** Where the roller has been, oldest point first, evenly dense; kept without a mark too: a forgotten mark is found from it. */
  track: TrackPoint[];
  /** Least time between two points, seconds: grows with the track, so that it stays bounded. */
  trackEvery: number;
  /** Farthest from the mark, metres, since a point last told how she lies. */
  farthestSince?: { at: number; distance: number };
}

/**
 * Adds where the roller is now to the track when she has moved or some time has passed. `lie`: how she lies now, while that is known;
 * one point a minute tells it.
 */
export function follow(kept: TrackKept, vessel: VesselView, lie?: TrackPoint['lie']): void {
  const { roller, heading, depth, windGround } = vessel;
  if (!roller) return;
  if (lie) {
    kept.farthestSince ??= { at: roller.at, distance: 0 };
    kept.farthestSince.distance = Math.max(kept.farthestSince.distance, lie.distance);
  } else delete kept.farthestSince;
  const last = kept.track.at(-1);
  if (last) {
    const passed = roller.at - last.at;
    if (passed <= 0 || passed < kept.trackEvery) return;
    if (passed < TRACK.interval && distanceBearing(last, roller.value).distance < TRACK.spacing) return;
  }
  const { lat, lon } = roller.value;
  const metres = depth && (depth.value.surface ?? depth.value.measured);
  kept.track.push({
    lat,
    lon,
    at: roller.at,
    ...(heading ? { heading: heading.value } : {}),
    ...(metres === undefined ? {} : { depth: metres }),
    ...(windGround
      ? { wind: windGround.value.speed, windFrom: Math.round(windGround.value.from) % 360 }
      : {}),
    ...(lie ? lieOfMinute(kept, roller.at, lie) : {}),
  });
  if (kept.track.length >= TRACK.points) thin(kept, roller.at);
}

function lieOfMinute(
  kept: TrackKept,
  at: number,
  lie: NonNullable<TrackPoint['lie']>,
): Pick<TrackPoint, 'lie'> {
  const since = kept.farthestSince!;
  if (at - since.at < TRACK.minute) return {};
  kept.farthestSince = { at, distance: 0 };
  const rounded = (value: number, digits: number) => Number(value.toFixed(digits));
  return {
    lie: {
      distance: rounded(since.distance, 1),
      reach: rounded(lie.reach, 1),
      moved: rounded(lie.moved, 1),
      probability: rounded(lie.probability, 3),
    },
  };
}

/** What is older than its age goes; when that is little, every second point that does not tell how she lies as well, and from then on they come half as often. */
function thin(kept: TrackKept, now: number): void {
  kept.track = kept.track.filter(({ at }) => at >= now - TRACK.age);
  if (kept.track.length < 0.75 * TRACK.points) return;
  const newest = kept.track.length - 1;
  kept.track = kept.track.filter(({ lie }, index) => lie || (newest - index) % 2 === 0);
  kept.trackEvery = Math.max(2, 2 * kept.trackEvery);
}
