import { threeFigures } from '../quantities/angle.ts';
import type { StreamTurnView } from './view.ts';

const POINTS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];
/** A direction as one of eight points. */
export const point = (d: number): string => POINTS[Math.round(d / 45) % 8]!;

function span(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes < 100) return `${minutes} min`;
  const tens = Math.round(minutes / 10);
  const rest = (tens % 6) * 10;
  return rest === 0 ? `${Math.floor(tens / 6)} h` : `${Math.floor(tens / 6)} h ${rest} min`;
}

/** "In about 40 min (± 15) the stream turns and sets to 310°; she will probably lie heading SE, her stern to NW." */
export function turnReport(view: Omit<StreamTurnView, 'report'>, now: number): string | undefined {
  const { at, setsAfterwards, lies } = view;
  if (!at) return undefined;
  const when = `In about ${span(Math.max(0, at.value - now))} (± ${span(at.sigma)}) the stream turns`;
  const where = setsAfterwards === undefined ? '' : ` and sets to ${threeFigures(setsAfterwards)}`;
  const lie = lies
    ? `; she will probably lie heading ${point(lies.heading.value)}, swung over to the ${point(lies.heading.value + 180)}`
    : '';
  return `${when}${where}${lie}.`;
}
