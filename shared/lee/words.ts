import { threeFigures } from '../quantities/angle.ts';
import { toKnots } from '../quantities/units.ts';
import type { LeeView } from './view.ts';

const WHAT = { neighbour: 'a neighbour', sector: 'a sector not to enter', shoal: 'too little water' };

/** What the lee shore note says. */
export function leeReport({ toward, drift, first }: Omit<LeeView, 'report'>, streamKnown: boolean): string {
  const knots = (v: number) => `${toKnots(v).toFixed(1)} kn`;
  const goes = `If the anchor goes she drifts to ${threeFigures(toward)} at about ${knots(drift.value)} (± ${toKnots(drift.sigma).toFixed(1)})${streamKnown ? '' : ', by the wind alone: the stream is not known'}`;
  const meets = first
    ? `: ${first.name ?? WHAT[first.what]} after about ${Math.round(first.distance)} m, ${first.in < 100 ? `${Math.round(first.in)} s` : `${Math.round(first.in / 60)} min`}`
    : ': nothing that hawse knows of within 1000 m';
  return `${goes}${meets}. hawse has no chart: look what lies to leeward.`;
}
