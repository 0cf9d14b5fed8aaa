import { displacement } from '../cable/loads/form.ts';
import { submergedWeight } from '../cable/nature.ts';
import type { CableShape } from '../cable/shape.ts';
import { nylonSnubber, type SurgeEnd, surge } from '../cable/surge.ts';
import { type PlanItem, SOURCES } from './item.ts';
import type { Task } from './request.ts';
import type { Veer } from './veer.ts';

/** Upward pull at which an anchor loses a quarter of its hold (Danton, from memory), and the usual limit (Hancock, SAIL), degrees. */
const QUARTER_LOST = 5;
const LIMIT = 8;
type CableItems = Record<'veer' | 'scope' | 'angleAtAnchor' | 'onBottom', PlanItem> &
  Partial<Record<'workingLoadShare' | 'surgePeak', PlanItem>>;

const NO_PEAK =
  'Chain alone does not stop such a surge before it is bar-taut, so its peak has no figure: use a snubber.';

/** What the cable does at high water under the load: `shape` is how it hangs there. `warning`: what no figure can carry. */
export function cableItems(
  task: Task,
  veer: Veer,
  shape: CableShape,
  load: number,
): { items: CableItems; warning?: string } {
  const { request, height, chain } = task;
  const asked = request.veer !== undefined;
  const angle = shape.state === 'infeasible' ? 90 : shape.angleAtAnchor;
  const items: CableItems = {
    veer: { value: veer.length, unit: 'm', ...(asked ? SOURCES.veerAsked : SOURCES.veer) },
    scope: { value: veer.length / height.high, unit: '×', ...SOURCES.scope },
    angleAtAnchor: { value: angle, unit: '°', ...SOURCES.angleAtAnchor },
    onBottom: {
      value: shape.state === 'infeasible' ? 0 : shape.onBottom,
      unit: 'm',
      ...SOURCES.onBottom,
    },
  };
  const lack = lacking(task, veer);
  if (lack) items.veer.caution = lack;
  if (angle > LIMIT) {
    items.angleAtAnchor.caution =
      'Above 8° anchors break out: veer more, or prepare for less wind elsewhere.';
  } else if (angle > QUARTER_LOST) {
    items.angleAtAnchor.caution = 'Above 5° an anchor loses a quarter of its hold.';
  }
  if (chain.workingLoad !== undefined && shape.state !== 'infeasible' && shape.state !== 'taut') {
    const share = shape.tensionAtRoller / chain.workingLoad;
    items.workingLoadShare = { value: share, unit: '×', ...SOURCES.workingLoadShare };
    items.workingLoadShare.source = `catenary [C]; ${chain.source}`;
    if (share > 1) items.workingLoadShare.caution = 'More than the working load of the chain.';
  }
  const end = surgeOf(task, veer.length, load);
  if (end?.state === 'held') items.surgePeak = { value: end.peak, unit: 'N', ...SOURCES.surgePeak };
  return end?.state === 'unbounded' ? { items, warning: NO_PEAK } : { items };
}

function lacking({ request }: Task, { length, enough }: Veer): string | undefined {
  if (request.veer === undefined) {
    return enough ? undefined : 'All the cable on board is not enough for this load.';
  }
  const onBoard =
    request.chainLength === undefined ? undefined : request.chainLength + (request.ropeLength ?? 0);
  if (onBoard !== undefined && length > onBoard) return `Only ${onBoard} m are on board.`;
  return enough ? undefined : 'Less than the load needs for an anchor that is pulled along the bottom.';
}

/** How a surge ends; undefined when no speed is told, or when rope is out, whose stretch is not known. */
function surgeOf({ request, height, chain }: Task, length: number, load: number): SurgeEnd | undefined {
  const { snubber, chainLength = length } = request;
  if (request.surge === undefined || length > chainLength) return undefined;
  return surge({
    hang: { length, height: height.high, weight: submergedWeight(chain.massPerMetre) },
    load: Math.max(load, 1),
    mass: displacement(request.boat).value,
    speed: request.surge,
    ...(snubber ? { snubber: nylonSnubber(snubber.diameter, snubber.length).value } : {}),
  });
}
