import { useMemo } from 'preact/hooks';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import type { Frame } from './frame.ts';

/** Where the roller has been, fading with age. Minutes up to which each shade reaches, newest first. */
const SHADES: readonly { minutes: number; opacity: number }[] = [
  { minutes: 5, opacity: 0.95 },
  { minutes: 15, opacity: 0.7 },
  { minutes: 45, opacity: 0.5 },
  { minutes: 120, opacity: 0.36 },
  { minutes: 360, opacity: 0.26 },
  { minutes: Number.POSITIVE_INFINITY, opacity: 0.18 },
];

/** Pixels between points that are drawn: a night at anchor is thousands of points on a palm's breadth. */
const THIN = 1.5;
/** A hole this long in the track is not bridged by a line, seconds. */
const HOLE = 90;

export function SweptTrack({ points, frame }: { points: readonly TrackPoint[]; frame: Frame }) {
  const lines = useMemo(() => draw(points, frame), [points, frame]);
  return (
    <g class="track">
      {lines.map((d, shade) => d && <path key={shade} d={d} style={{ opacity: SHADES[shade]!.opacity }} />)}
    </g>
  );
}

function draw(points: readonly TrackPoint[], frame: Frame): string[] {
  const lines = SHADES.map(() => '');
  const newest = points.at(-1)?.at ?? 0;
  let last: { x: number; y: number; at: number } | undefined;
  for (const point of points) {
    const { x, y } = frame.toPixels(point);
    if (last && Math.hypot(x - last.x, y - last.y) < THIN && point.at !== newest) {
      last.at = point.at;
      continue;
    }
    if (last && point.at - last.at <= HOLE) {
      const minutes = (newest - point.at) / 60;
      const shade = SHADES.findIndex((step) => minutes <= step.minutes);
      lines[shade] += `M${last.x.toFixed(1)} ${last.y.toFixed(1)}L${x.toFixed(1)} ${y.toFixed(1)}`;
    }
    last = { x, y, at: point.at };
  }
  return lines;
}
