import { threeFigures } from '../quantities/angle.ts';
import { toKnots } from '../quantities/units.ts';
import type { NeighbourView } from './view.ts';

/** What neighbours' alerts say. */
const metres = (m: number): string => `${Math.round(m)} m`;
const minutes = (s: number): string => (s < 90 ? `${Math.round(s)} s` : `${Math.round(s / 60)} min`);
const who = ({ name, id }: NeighbourView): string =>
  name ?? (id.startsWith('ais-') ? `vessel ${id.slice(4)}` : 'a neighbour');

export const drags = (view: NeighbourView): string => {
  const { beyond, speed, toward, reachesUsIn } = view.dragging!;
  const time = reachesUsIn === undefined ? 'not towards us' : `could be upon us in ${minutes(reachesUsIn)}`;
  return `${who(view)} probably drags: ${metres(beyond)} beyond her circle, ${toKnots(speed).toFixed(1)} kn to ${threeFigures(toward)}; ${time}.`;
};

export const passes = (view: NeighbourView): string => {
  const { distance, in: seconds } = view.passing!;
  const past = distance <= 0 ? 'leads into us' : `passes ${metres(distance)} from us`;
  return `${who(view)} under way ${past} in ${minutes(seconds)} if she holds her course.`;
};

export const isNear = (view: NeighbourView): string =>
  `${who(view)} lies ${metres(Math.max(0, view.distance!))} from us, bearing ${threeFigures(view.bearing!)}.`;

export const liesOver = (view: NeighbourView): string => `${who(view)} lies over our anchor.`;
