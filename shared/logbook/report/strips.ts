import { toKnots } from '../../quantities/units.ts';
import type { Night, NightAlert, Sample } from '../night.ts';
import { GAPS, loudAt, moment, time } from './words.ts';

/** Strips over the time of a night, one below the other, as one SVG. */

const WIDTH = 1000;
const LEFT = 64;
const RIGHT = 12;
const HEIGHT = 110;
const APART = 30;
const HOURS = [1 / 12, 1 / 6, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24];

interface Strip {
  title: string;
  unit: string;
  /** The line, and one drawn thin beside it. */
  value(sample: Sample): number | undefined;
  second?: (sample: Sample) => number | undefined;
  /** Larger values lower down, as water is. */
  down?: boolean;
}

const STRIPS: Strip[] = [
  {
    title: 'Roller to mark, farthest in each sample; thin: the circle in force',
    unit: 'm',
    value: ({ distanceMost, distance }) => distanceMost ?? distance,
    second: ({ circle }) => circle,
  },
  {
    title: 'Anchor has moved by the drag watch’s estimate; thin: its likelihood, 100 % at the top',
    unit: 'm',
    value: ({ moved }) => moved,
  },
  {
    title: 'Wind over ground, strongest single reading in each sample; thin: mean',
    unit: 'kn',
    value: ({ windMost, windSpeed }) => knots(windMost ?? windSpeed),
    second: ({ windSpeed }) => knots(windSpeed),
  },
  {
    title: 'Depth, least single reading in each sample',
    unit: 'm',
    value: ({ depthLeast, depth }) => depthLeast ?? depth,
    down: true,
  },
  { title: 'Pull on the cable, worst single reading', unit: 'kN', value: ({ load }) => load && load / 1000 },
];

const knots = (speed: number | undefined) => (speed === undefined ? undefined : toKnots(speed));

/** Samples farther apart than so many steps are not joined by a line. */
const JOINED = 1.5;

export function stripsOf({ summary, strips, gaps, alerts, step }: Night): string {
  const from = summary.from;
  const until = Math.max(summary.to ?? summary.upTo, from + 60);
  const x = (at: number) =>
    LEFT + ((Math.min(until, Math.max(from, at)) - from) / (until - from)) * (WIDTH - LEFT - RIGHT);
  const drawn = STRIPS.filter(({ value }) => strips.some((sample) => value(sample) !== undefined));
  const height = drawn.length * (HEIGHT + APART) + 60;
  const dead = gaps.filter(({ kind }) => kind === 'silence' || kind === 'position' || kind === 'doubtful');
  const bottom = height - 40;
  const every = HOURS.find((hours) => (until - from) / 3600 / hours <= 8) ?? 24;
  const ticks: number[] = [];
  for (let at = Math.ceil(from / (every * 3600)) * every * 3600; at <= until; at += every * 3600)
    ticks.push(at);
  return `<svg class="strips" viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="Strips from ${moment(from)} to ${moment(until)} UTC">
<defs><pattern id="dead" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" class="hatch"/></pattern></defs>
${dead.map(({ kind, from: start, to = until }) => `<rect x="${x(start).toFixed(1)}" y="0" width="${Math.max(1, x(to) - x(start)).toFixed(1)}" height="${bottom}" class="dead"><title>${GAPS[kind]}</title></rect>`).join('')}
${drawn.map((strip, i) => oneStrip(strip, strips, i * (HEIGHT + APART) + 22, x, step)).join('')}
${alerts.map((alert) => alertMark(alert, x, bottom)).join('')}
${drawn.map(({ title }, i) => `<text x="${LEFT}" y="${i * (HEIGHT + APART) + 16}">${title}</text>`).join('')}
${ticks.map((at) => `<path d="M${x(at).toFixed(1)} ${bottom}v6" class="line"/><text x="${x(at).toFixed(1)}" y="${bottom + 20}" text-anchor="middle">${time(at).slice(0, 5)}</text>`).join('')}
<text x="${LEFT}" y="${height - 2}">UTC. Hatched: no position, or none to be trusted. Upright lines: alarms (full) and warnings (dashed) when they were raised.</text>
</svg>`;
}

function oneStrip(
  { title, unit, value, second, down }: Strip,
  samples: readonly Sample[],
  top: number,
  x: (at: number) => number,
  step: number,
): string {
  const values = samples.flatMap((sample) =>
    [value(sample), second?.(sample)].filter((known) => known !== undefined),
  );
  const most = Math.max(...values, 1e-9);
  const y = (known: number) =>
    down ? top + (known / most) * HEIGHT : top + HEIGHT - (known / most) * HEIGHT;
  const line = (of: (sample: Sample) => number | undefined) => {
    let d = '';
    let last = Number.NEGATIVE_INFINITY;
    for (const sample of samples) {
      const known = of(sample);
      if (known === undefined) continue;
      // A value with nothing known beside it is a dot: a line of no length with round ends.
      d += `${sample.at - last > step * JOINED ? 'M' : 'L'}${x(sample.at).toFixed(1)} ${y(known).toFixed(1)}h0`;
      last = sample.at;
    }
    return d;
  };
  const chance = unit === 'm' && title.startsWith('Anchor');
  const likely = ({ probability }: Sample) => (probability === undefined ? undefined : probability * most);
  return `<path d="M${LEFT} ${top}V${top + HEIGHT}H${WIDTH - RIGHT}" class="line"/>
<text x="${LEFT - 6}" y="${(down ? top + HEIGHT : top) + 5}" text-anchor="end">${most.toFixed(most < 10 ? 1 : 0)} ${unit}</text>
<text x="${LEFT - 6}" y="${(down ? top : top + HEIGHT) + 5}" text-anchor="end">0</text>
${second || chance ? `<path d="${line(chance ? likely : second!)}" class="thin"/>` : ''}
<path d="${line(value)}" class="value"/>`;
}

function alertMark(alert: NightAlert, x: (at: number) => number, bottom: number): string {
  const { priority } = alert;
  if (priority === 'caution') return '';
  return `<path d="M${x(loudAt(alert)).toFixed(1)} 0V${bottom}" class="${priority}"/>`;
}
