import { underwater, windage } from '../cable/loads/form.ts';
import { streamAlong } from '../cable/loads/stream.ts';
import { TABLE_WIND, tableLoad } from '../cable/loads/table.ts';
import { windLoad } from '../cable/loads/wind.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type PlanItem, SOURCES } from './item.ts';
import type { Task } from './request.ts';

/** How wrong the stream's pull may be, relative (common practice). */
const STREAM_SIGMA = 0.4;
/** Our figure and the table's differ by more than this factor: one of them does not fit this boat. */
const FAR_APART = 2;

export interface Forces {
  /** Horizontal pull to prepare for, N. */
  load: Estimate;
  items: { windLoad: PlanItem; streamLoad: PlanItem; load: PlanItem; tableLoad?: PlanItem };
}

/** Pull of wind and stream on the cable, with the trade's design table beside it as a check that is never mixed in. */
export function forces(task: Task): Forces {
  const { request, gust, sheer, stream } = task;
  const { boat } = request;
  const { ahead } = windage(boat);
  const wind = windLoad(ahead.value, request.wind * gust) * sheer;
  const windSigma = wind * (ahead.sigma / ahead.value);
  const current = streamAlong(underwater(boat), stream);
  const load = { value: wind + current, sigma: Math.hypot(windSigma, current * STREAM_SIGMA) };
  const guessed = boat.windage.area === undefined;
  const items: Forces['items'] = {
    windLoad: {
      value: wind,
      sigma: windSigma,
      unit: 'N',
      ...SOURCES.windLoad,
      ...(guessed
        ? { caution: `The drag area, ${ahead.value.toFixed(0)} m², is estimated from hull, length and beam.` }
        : {}),
    },
    streamLoad: { value: current, sigma: current * STREAM_SIGMA, unit: 'N', ...SOURCES.streamLoad },
    load: { ...load, unit: 'N', ...SOURCES.load },
  };
  const table = tableLoad(boat);
  if (table !== undefined) {
    items.tableLoad = { value: table, unit: 'N', ...SOURCES.tableLoad, ...apart(task, table) };
  }
  return { load, items };
}

/** Compares like with like: our wind load at the table's 30 kn. */
function apart({ request, gust, sheer }: Task, table: number): { caution: string } {
  const ours = windLoad(windage(request.boat).ahead.value, TABLE_WIND * gust) * sheer;
  const factor = Math.max(table / ours, ours / table);
  const compared = `For 30 kn we compute ${(ours / 1000).toFixed(1)} kN, the table says ${(table / 1000).toFixed(1)} kN`;
  return {
    caution:
      factor > FAR_APART
        ? `${compared}: they differ much, so check the drag area.`
        : `${compared}. A check only; it is not part of our figures.`,
  };
}
