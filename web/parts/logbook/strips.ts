import type { Gap, Night, Sample } from '../../../shared/logbook/night.ts';

/** Where the strips of a time bar come on the screen: pixels. Pure. */

export interface Strip {
  key: 'distance' | 'wind' | 'depth';
  /** The line, from extremes of single readings, and a limit drawn beside it. */
  value(sample: Sample): number | undefined;
  limit?(sample: Sample): number | undefined;
}

export const STRIPS: readonly Strip[] = [
  {
    key: 'distance',
    value: ({ distanceMost, distance }) => distanceMost ?? distance,
    limit: ({ circle }) => circle,
  },
  { key: 'wind', value: ({ windMost, windSpeed }) => windMost ?? windSpeed },
  { key: 'depth', value: ({ depthLeast, depth }) => depthLeast ?? depth },
];

export interface Drawn {
  key: Strip['key'];
  most: number;
  line: string;
  limit: string;
}

/** Samples farther apart than so many steps are not joined. */
const JOINED = 1.5;

export const span = ({
  summary: { from, to, upTo },
}: Pick<Night, 'summary'>): { from: number; to: number } => ({
  from,
  to: Math.max(to ?? upTo, from + 60),
});

/** Strips that something is known for, each `height` high in `width`, its zero at the bottom. */
export function drawStrips(night: Night, width: number, height: number): Drawn[] {
  const { strips, step } = night;
  const { from, to } = span(night);
  const x = (at: number) => ((at - from) / (to - from)) * width;
  return STRIPS.flatMap(({ key, value, limit }) => {
    const values = strips.flatMap((sample) => value(sample) ?? []);
    if (values.length === 0) return [];
    const limits = limit ? strips.flatMap((sample) => limit(sample) ?? []) : [];
    // A circle far wider than she ever went would flatten the line.
    const most = Math.max(...values, Math.min(Math.max(0, ...limits), 2 * Math.max(...values)), 0.1);
    const path = (of: (sample: Sample) => number | undefined) => {
      let d = '';
      let last = Number.NEGATIVE_INFINITY;
      let lastX = Number.NEGATIVE_INFINITY;
      let extreme: number | undefined;
      for (const sample of strips) {
        const known = of(sample);
        if (known === undefined) continue;
        const breaks = sample.at - last > step * JOINED;
        last = sample.at;
        extreme = breaks ? known : Math.max(extreme ?? known, known);
        // Several samples on one pixel: their greatest is drawn.
        if (!breaks && x(sample.at) - lastX < 0.75) continue;
        lastX = x(sample.at);
        d += `${breaks ? 'M' : 'L'}${lastX.toFixed(1)} ${(height - (Math.min(extreme, most) / most) * height).toFixed(1)}${breaks ? 'h0.1' : ''}`;
        extreme = undefined;
      }
      return d;
    };
    return [{ key, most, line: path(value), limit: limit ? path(limit) : '' }];
  });
}

/** Stretches in which nothing was known of where she lay. */
export const deadTimes = (gaps: readonly Gap[]): Gap[] =>
  gaps.filter(({ kind }) => kind === 'silence' || kind === 'position' || kind === 'doubtful');

const HOUR = 3600;
const STEPS = [300, 600, 900, 1800, HOUR, 2 * HOUR, 3 * HOUR, 6 * HOUR, 12 * HOUR, 24 * HOUR];

/** Round times for so many pixels, in the zone that is `offset` seconds east of UTC. */
export function ticks(from: number, to: number, width: number, offset: number): number[] {
  const room = Math.max(1, Math.floor(width / 70));
  const step = STEPS.find((seconds) => (to - from) / seconds <= room) ?? STEPS.at(-1)!;
  const found: number[] = [];
  for (let at = Math.ceil((from + offset) / step) * step - offset; at <= to; at += step) found.push(at);
  return found;
}
