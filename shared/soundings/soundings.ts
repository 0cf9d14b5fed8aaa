import { localPlane } from '../earth/local.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { add, towards, type Vector } from '../quantities/vector.ts';
import type { Boat } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { type Chart, enter } from './chart.ts';
import { searchCircle, spotsOf } from './least.ts';
import { SOUNDINGS } from './limits.ts';
import type { SoundingsView } from './view.ts';

/** What has been sounded about the present mark. Plain data. */
export interface SoundingsState {
  chart?: Chart;
  /** When the last sounding was entered: the same is not entered twice. */
  depthAt?: number;
  /** As drawn last. */
  view?: SoundingsView;
  drawnAt?: number;
}

export const createSoundings = (): SoundingsState => ({});

/** What a sounding is entered by. */
export interface Entered {
  anchor?: LatLon;
  /** Height of the tide now, m above datum; absent: unknown. */
  height?: number;
}

/** What the soundings need to know of the watch: where the anchor lies, how far the whole boat swings, and the tide. */
export interface Ground extends Entered {
  /** Metres from the anchor to the farthest part of the hull. */
  radius?: number;
  /** Least height of the next day, and when. */
  low?: { at: number; height: number };
}

/** To be called at each fresh fix: enters the latest sounding at its place. The chart begins anew with another tide, and ends with the mark. */
export function sound(
  state: SoundingsState,
  boat: Boat,
  vessel: VesselView,
  { anchor, height }: Entered,
): void {
  if (!anchor) {
    if (state.chart) for (const key of Object.keys(state) as (keyof SoundingsState)[]) delete state[key];
    return;
  }
  const reduced = height !== undefined;
  if (!state.chart || state.chart.reduced !== reduced)
    state.chart = { origin: { lat: anchor.lat, lon: anchor.lon }, reduced, cells: {} };
  const { depth, positionDoubt } = vessel;
  if (!depth || positionDoubt || depth.at === state.depthAt || depth.age > SOUNDINGS.together) return;
  const surface = depth.value.surface;
  const place = placeOf(boat, vessel, state.chart.origin);
  if (surface === undefined || !(surface > 0) || !place) return;
  state.depthAt = depth.at;
  enter(state.chart, place.east, place.north, surface - (height ?? 0), depth.at);
}

/** Where the sounder is, metres about the origin of the chart. */
function placeOf({ sounder }: Boat, { roller, heading }: VesselView, origin: LatLon): Vector | undefined {
  if (!roller || roller.age > SOUNDINGS.together) return undefined;
  const bow = localPlane(origin).toLocal(roller.value);
  if (heading) return add(bow, towards(-sounder.aftOfRoller, heading.value));
  return Math.abs(sounder.aftOfRoller) <= SOUNDINGS.blindOffset ? bow : undefined;
}

/** To be called at each whole second: draws the chart anew now and then. `draft` in m. */
export function passSoundings(state: SoundingsState, draft: number, at: number, ground: () => Ground): void {
  if (!state.chart) return;
  if (state.drawnAt !== undefined && at - state.drawnAt < SOUNDINGS.redraw) return;
  state.drawnAt = at;
  state.view = draw(state.chart, draft, ground());
}

function draw(chart: Chart, draft: number, { anchor, radius, low }: Ground): SoundingsView {
  const spots = spotsOf(chart);
  const view: SoundingsView = {
    origin: chart.origin,
    side: SOUNDINGS.side,
    reduced: chart.reduced,
    cells: spots.map(({ i, j, depth, sigma }) => [i, j, round(depth), round(sigma)]),
    share: 0,
  };
  if (!anchor || radius === undefined)
    return { ...view, leastUnknown: 'The circle is not known: tell what is veered.' };
  const plane = localPlane(chart.origin);
  const { shoalest, share } = searchCircle(spots, plane.toLocal(anchor), radius);
  view.share = round(share);
  if (!low) return { ...view, leastUnknown: 'The tide is not told: depths at low water are not known.' };
  if (!shoalest) return { ...view, leastUnknown: 'Nothing has been sounded yet.' };
  const depth = { value: shoalest.depth + low.height, sigma: shoalest.sigma };
  view.least = {
    depth,
    underKeel: depth.value - draft,
    at: low.at,
    place: plane.toLatLon(shoalest),
    sounded: shoalest.sounded,
  };
  return view;
}

/** A chart is not exact to the millimetre, and pages need not be sent what has not changed. */
const round = (value: number): number => Math.round(value * 100) / 100;
