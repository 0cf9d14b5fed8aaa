import { distanceBearing } from '../earth/geodesic.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { NightSummary, Place, PlaceNight } from './night.ts';
import { widened } from './sample.ts';

/** Marks within so many metres are of one place: 0.3 nmi, the width of a bay [P]. */
export const ONE_PLACE = 556;

/** Places within `within` metres of a point, nearest first; a place is a chain of nights, each near the newest there. */
export function placesNear(nights: readonly NightSummary[], near: LatLon, within = ONE_PLACE): Place[] {
  const places: Place[] = [];
  // Newest first: the newest night stands for the place, and gives it its name and its spot.
  for (const night of [...nights].sort((a, b) => b.from - a.from)) {
    const { mark } = night;
    if (!isNear(mark, near, within + ONE_PLACE)) continue;
    const held = places.find((place) => isNear(mark, place, ONE_PLACE));
    const place = held ?? { lat: mark.lat, lon: mark.lon, ...distanceBearing(near, mark), nights: [] };
    if (!held) places.push(place);
    enter(place, night);
  }
  return places.filter(({ distance }) => distance <= within).sort((a, b) => a.distance - b.distance);
}

function enter(place: Place, { place: name, depth, windMost, ...night }: NightSummary): void {
  if (place.name === undefined && name !== undefined) place.name = name;
  if (depth) place.depth = widened(widened(place.depth, depth.least), depth.most);
  if (windMost) place.windMost = Math.max(windMost.speed, place.windMost ?? 0);
  const { id, from, to, mark, veered, farthest, alerts, notes } = night;
  const told: PlaceNight = {
    id,
    from,
    ...(to === undefined ? {} : { to }),
    mark: { lat: mark.lat, lon: mark.lon, sigma: mark.sigma },
    ...(veered ? { veered: veered.most } : {}),
    ...(depth ? { depth } : {}),
    ...(windMost ? { windMost: windMost.speed } : {}),
    ...(farthest ? { farthest: farthest.distance } : {}),
    alarms: alerts.alarms,
    dragged: alerts.kinds.drag !== undefined,
    ...(notes === undefined ? {} : { notes }),
  };
  place.nights.push(told);
}

/** Name of the place when a night near it has one: the nearest that has. */
export function nameNear(nights: readonly NightSummary[], mark: LatLon): string | undefined {
  let best: { distance: number; name: string } | undefined;
  for (const { place, mark: other } of nights) {
    if (place === undefined || !isNear(other, mark, ONE_PLACE)) continue;
    const { distance } = distanceBearing(mark, other);
    if (!best || distance < best.distance) best = { distance, name: place };
  }
  return best?.name;
}

/** Degrees of latitude are about 111 km: most nights are ruled out without a geodesic. */
const isNear = (a: LatLon, b: LatLon, metres: number): boolean =>
  Math.abs(a.lat - b.lat) * 110_000 <= metres && distanceBearing(a, b).distance <= metres;
