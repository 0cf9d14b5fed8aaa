import { localPlane } from './earth/local.ts';
import type { EngineState } from './engine.ts';
import { leeNote } from './lee/lee.ts';
import type { LeeView } from './lee/view.ts';
import { tideAt } from './tides/tides.ts';
import type { VesselView } from './vessel/view.ts';
import { within } from './watch/sectors.ts';
import type { WatchView } from './watch/view.ts';

/** What ties the lee to all that may lie there. Undefined without a mark, a position, or a wind. */
export function lee(state: EngineState, vessel: VesselView, watch: WatchView): LeeView | undefined {
  const { boat } = state.settings;
  const { roller, windGround } = vessel;
  if (!watch.mark || !roller || !windGround) return undefined;
  const stream = watch.lie?.stream;
  const underKeelAt = soundedWater(state, vessel.at);
  return leeNote({
    roller: roller.value,
    length: boat.length,
    wind: windGround.value,
    ...(stream ? { stream: { set: stream.set.value, drift: stream.drift.value } } : {}),
    neighbours: state.neighbours.views
      .filter(({ stale, activity }) => !stale && activity !== 'under-way')
      .map(({ name, place, extent }) => ({
        ...(name === undefined ? {} : { name }),
        place,
        length: extent.toBow + extent.toStern,
      })),
    sectors: (watch.sectors ?? []).map((sector) => ({
      ...(sector.name === undefined ? {} : { name: sector.name }),
      contains: (point) => within(sector, point) !== undefined,
    })),
    ...(underKeelAt ? { underKeelAt } : {}),
  });
}

/** Water under the keel now where it has been sounded. */
function soundedWater({ soundings, settings, tides }: EngineState, at: number) {
  const chart = soundings.view;
  if (!chart) return undefined;
  const height = chart.reduced ? tideAt(tides, at) : 0;
  if (height === undefined) return undefined;
  const depths = new Map(chart.cells.map(([i, j, depth]) => [`${i},${j}`, depth]));
  const plane = localPlane(chart.origin);
  return (point: { lat: number; lon: number }) => {
    const { east, north } = plane.toLocal(point);
    const depth = depths.get(`${Math.floor(east / chart.side)},${Math.floor(north / chart.side)}`);
    return depth === undefined ? undefined : depth + height - settings.boat.draft;
  };
}
