import type { Finding } from '../alerts/alert.ts';
import type { SectorTold } from '../commands.ts';
import { destination, distanceBearing } from '../earth/geodesic.ts';
import { direction, radians, reciprocal } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { confirm } from './confirm.ts';
import { SECTOR } from './limits.ts';
import type { Moment } from './moment.ts';
import type { Mark, Sector } from './view.ts';
import { outsideSector, outsideSectorUnseen } from './words.ts';

/** More than these nobody draws round one anchor. */
const MOST = 8;

/**
 * Sectors as told, about the mark as it is now: a shoal stays where it is when the mark is moved later. Undefined, with a reason,
 * for what cannot be a sector.
 */
export function drawSectors(
  told: readonly SectorTold[],
  mark: Mark | undefined,
): { ok: true; sectors: Sector[] } | { ok: false; why: string } {
  if (told.length > 0 && !mark)
    return { ok: false, why: 'Sectors are drawn about the mark: tell hawse first where the anchor lies.' };
  if (told.length > MOST) return { ok: false, why: `At most ${MOST} sectors.` };
  for (const { from, to, beyond } of told) {
    if (!(from >= 0 && from <= 360 && to >= 0 && to <= 360))
      return { ok: false, why: 'A sector runs from one bearing to another, 0 to 360 degrees true.' };
    if (!(width({ from, to }) >= 1)) return { ok: false, why: 'A sector is at least 1 degree wide.' };
    if (!(beyond >= 0 && beyond <= 5000))
      return { ok: false, why: 'A sector begins 0 to 5000 m from the mark.' };
  }
  return {
    ok: true,
    sectors: told.map(({ name, from, to, beyond }) => ({
      ...(name === undefined ? {} : { name }),
      from: direction(from),
      to: direction(to),
      beyond,
      lat: mark!.lat,
      lon: mark!.lon,
    })),
  };
}

/** Degrees that a sector spans clockwise; from 0 to 360 is all round. */
const width = ({ from, to }: { from: number; to: number }): number =>
  from === to ? 0 : direction(to - from) || 360;

/** How far a point is within a sector, m, measured to the nearest of its edges; undefined when it is outside. */
export function within(sector: Sector, point: LatLon): number | undefined {
  const { distance, bearing } = distanceBearing(sector, point);
  const beyond = distance - sector.beyond;
  const fromFirst = direction(bearing - sector.from);
  const span = width(sector);
  if (beyond <= 0 || fromFirst > span) return undefined;
  const toEdge = (angle: number) => (angle < 90 ? distance * Math.sin(radians(angle)) : distance);
  return span >= 360 ? beyond : Math.min(beyond, toEdge(fromFirst), toEdge(span - fromFirst));
}

/** Bow or stern lies in a part of the circle that she must not enter. Watched while weighing as well: the bank is still there. */
export function findOutsideSector({ state, settings, vessel, at }: Moment): Finding | undefined {
  const { sectors } = state.told;
  if (!sectors || sectors.length === 0) {
    delete state.confirms['outside-sector'];
    return undefined;
  }
  const { roller, heading } = vessel;
  let deepest: { sector: Sector; end: 'bow' | 'stern'; depth: number } | undefined;
  if (roller) {
    const stern = heading && destination(roller.value, reciprocal(heading.value), settings.boat.length);
    for (const sector of sectors)
      for (const [end, point] of [
        ['bow', roller.value],
        ['stern', stern],
      ] as const) {
        const depth = point && within(sector, point);
        if (depth !== undefined && depth > (deepest?.depth ?? 0)) deepest = { sector, end, depth };
      }
  }
  const holds = confirm(
    state.confirms,
    'outside-sector',
    vessel.positionDoubt ? SECTOR.doubtfulRule : SECTOR.rule,
    { at, limit: 0, side: roller && (deepest ? 'beyond' : 'within'), reading: roller?.at },
  );
  if (!holds) return undefined;
  const finding = { kind: 'outside-sector', priority: 'alarm' } as const;
  if (!deepest) return { ...finding, text: outsideSectorUnseen(roller !== undefined) };
  return {
    ...finding,
    text: outsideSector(deepest.end, deepest.depth, deepest.sector.name),
    value: deepest.depth,
  };
}
