import { distanceBearing } from '../../earth/geodesic.ts';
import { radians } from '../../quantities/angle.ts';
import type { LatLon } from '../../quantities/estimate.ts';
import type { Night, Sample } from '../night.ts';
import { metres, time } from './words.ts';

const SIZE = 640;
const RIM = 36;
/** Samples farther apart than so many steps are not joined by a line: nothing was known between. */
const JOINED = 1.5;
const BARS = [5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000];

/** A place where an alarm came, with its number in the list. */
export interface Numbered extends LatLon {
  number: number;
}

const limitsOf = (values: readonly number[]): [number, number] => [
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
  values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
];

/**
 * The anchorage from above as SVG, north up: every sample of the roller, the circle as it was first in force, and
 * where she was when alarms came. Undefined when there is no position at all.
 */
export function planOf(
  { summary, strips, settings, step }: Night,
  alarms: readonly Numbered[],
): string | undefined {
  const { mark } = summary;
  const at = (place: LatLon) => {
    const { distance, bearing } = distanceBearing(mark, place);
    return { east: distance * Math.sin(radians(bearing)), north: distance * Math.cos(radians(bearing)) };
  };
  const known = strips.filter(
    (sample): sample is Sample & LatLon => sample.lat !== undefined && sample.lon !== undefined,
  );
  if (known.length === 0) return undefined;
  const points = known.map((sample) => ({ sample, ...at(sample) }));
  const circle = settings.circle?.radius;
  // All that is drawn, with the mark: the circle too, unless she was never near it.
  const shown = [
    ...points,
    { east: 15, north: 15 },
    { east: -15, north: -15 },
    ...(circle === undefined
      ? []
      : [
          { east: circle, north: circle },
          { east: -circle, north: -circle },
        ]),
  ];
  const [west, east] = limitsOf(shown.map((point) => point.east));
  const [south, north] = limitsOf(shown.map((point) => point.north));
  const scale = (SIZE - 2 * RIM) / Math.max(east - west, north - south);
  const x = (metresEast: number) => (SIZE / 2 + (metresEast - (west + east) / 2) * scale).toFixed(1);
  const y = (metresNorth: number) => (SIZE / 2 - (metresNorth - (south + north) / 2) * scale).toFixed(1);
  let line = '';
  let last = Number.NEGATIVE_INFINITY;
  for (const { sample, east, north } of points) {
    line += `${sample.at - last > step * JOINED ? 'M' : 'L'}${x(east)} ${y(north)}`;
    last = sample.at;
  }
  const doubtful = points.filter(({ sample }) => sample.doubtful);
  const bar = BARS.findLast((length) => length * scale <= SIZE / 4) ?? BARS[0]!;
  const label = `Plan, north up: ${known.length} positions of the bow roller from ${time(known[0]!.at)} to ${time(known.at(-1)!.at)} UTC`;
  return `<svg class="plan" viewBox="0 0 ${SIZE} ${SIZE}" role="img" aria-label="${label}">
<rect x="0.5" y="0.5" width="${SIZE - 1}" height="${SIZE - 1}" class="frame"/>
${circle === undefined ? '' : `<circle cx="${x(0)}" cy="${y(0)}" r="${(circle * scale).toFixed(1)}" class="circle"/><text x="${x(0)}" y="${y(-circle)}" dy="1.1em" text-anchor="middle">circle ${metres(circle)}</text>`}
<path d="${line}" class="track"/>
${points.map(({ east, north }) => `<circle cx="${x(east)}" cy="${y(north)}" r="1.1" class="fix"/>`).join('')}
${doubtful.map(({ east, north }) => `<circle cx="${x(east)}" cy="${y(north)}" r="3" class="doubtful"/>`).join('')}
<g class="mark"><circle cx="${x(0)}" cy="${y(0)}" r="${Math.max(2 * mark.sigma * scale, 3).toFixed(1)}"/><path d="M${x(0)} ${y(0)}m-9 0h18m-9 -9v18"/></g>
${alarms
  .map((alarm) => {
    const { east, north } = at(alarm);
    return `<g class="number"><circle cx="${x(east)}" cy="${y(north)}" r="9"/><text x="${x(east)}" y="${y(north)}" dy="0.35em" text-anchor="middle">${alarm.number}</text></g>`;
  })
  .join('')}
<path d="M24 46V18m-6 8l6 -9l6 9" class="line"/><text x="24" y="60" text-anchor="middle">N</text>
<path d="M${RIM} ${SIZE - 20}v6h${(bar * scale).toFixed(1)}v-6" class="line"/><text x="${(RIM + (bar * scale) / 2).toFixed(1)}" y="${SIZE - 22}" text-anchor="middle">${bar} m</text>
</svg>`;
}
