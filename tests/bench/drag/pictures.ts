import { mkdirSync, writeFileSync } from 'node:fs';
import type { Night } from './night.ts';
import type { Detector } from './report.ts';

const FOLDER = 'docs/pictures';
const SIZE = { width: 720, height: 320, left: 56, right: 16, top: 28, bottom: 44 };
const COLOURS = ['#1f5fa8', '#b3541e', '#4a7c3a', '#7a4a8c'];

interface Line {
  name: string;
  points: [number, number][];
  dashed?: boolean;
}

/** Writes the bench's plots: how far the anchor had moved at the first alarm, and one night as a strip. */
export function drawAll(dragging: Night[], detectors: Detector[]): string[] {
  mkdirSync(FOLDER, { recursive: true });
  const files: string[] = [];
  const write = (name: string, svg: string) => {
    const file = `${FOLDER}/drag-${name}.svg`;
    writeFileSync(file, svg);
    files.push(file);
  };
  write(
    'metres',
    chart(
      `Metres that the anchor has moved at the first alarm: part of ${dragging.length} dragging nights told by then`,
      'm',
      detectors.map((one) => ({ name: one.name, points: distribution(dragging, one) })),
    ),
  );
  const shown = dragging.find((night) => night.strip && night.drag && night.caution);
  if (shown?.strip) write('night', strip(shown));
  return files;
}

/** Steps of the empirical distribution; nights without an alarm leave it below 1. */
function distribution(nights: Night[], { alarm }: Detector): [number, number][] {
  const metres = nights
    .map((night) => alarm(night)?.moved)
    .filter((one) => one !== undefined)
    .sort((a, b) => a - b);
  const points: [number, number][] = [[0, 0]];
  for (const [i, value] of metres.entries())
    points.push([value, i / nights.length], [value, (i + 1) / nights.length]);
  return points;
}

function strip({ strip: told, drag, caution, kind, seed }: Night): string {
  const line = (name: string, of: (one: NonNullable<Night['strip']>[number]) => number, dashed = false) => ({
    name,
    dashed,
    points: told!.map((one): [number, number] => [one.minutes, of(one)]),
  });
  const marks = [
    { at: caution!.after / 60, name: 'caution' },
    { at: drag!.after / 60, name: 'alarm' },
  ];
  return chart(
    `A night of the bench: ${kind}, seed ${seed}; metres against minutes`,
    'min',
    [
      line('farthest from the mark', ({ distance }) => distance),
      line('reach of the cable', ({ reach }) => reach, true),
      line('the anchor has moved, told', ({ told }) => told),
      line('the anchor has moved, truly', ({ moved }) => moved, true),
    ],
    marks,
  );
}

function chart(
  title: string,
  unit: string,
  lines: Line[],
  marks: { at: number; name: string }[] = [],
): string {
  const { width, height, left, right, top, bottom } = SIZE;
  const all = lines.flatMap(({ points }) => points);
  const far = Math.max(...all.map(([x]) => x), 1e-9);
  const high = Math.max(...all.map(([, y]) => y), 1e-9);
  const x = (value: number) => (left + (value / far) * (width - left - right)).toFixed(1);
  const y = (value: number) => (height - bottom - (value / high) * (height - top - bottom)).toFixed(1);
  const parts = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="11">`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    text(left, 16, title),
  ];
  for (const value of ticks(far))
    parts.push(
      `<path d="M${x(value)} ${top}V${height - bottom}" stroke="#ddd"/>`,
      text(Number(x(value)), height - bottom + 14, `${value} ${unit}`, 'middle'),
    );
  for (const value of ticks(high))
    parts.push(
      `<path d="M${left} ${y(value)}H${width - right}" stroke="#ddd"/>`,
      text(left - 6, Number(y(value)) + 4, String(value), 'end'),
    );
  for (const { at, name } of marks)
    parts.push(
      `<path d="M${x(at)} ${top}V${height - bottom}" stroke="#a00"/>`,
      text(Number(x(at)) + 3, top + 10, name),
    );
  for (const [i, { points, dashed }] of lines.entries()) {
    const path = points.map(([px, py], at) => `${at ? 'L' : 'M'}${x(px)} ${y(py)}`).join('');
    parts.push(
      `<path d="${path}" fill="none" stroke="${COLOURS[i % COLOURS.length]}" stroke-width="1.6"${dashed ? ' stroke-dasharray="5 3"' : ''}/>`,
    );
  }
  let across = left;
  for (const [i, { name }] of lines.entries()) {
    parts.push(
      `<rect x="${across}" y="${height - 16}" width="10" height="3" fill="${COLOURS[i % COLOURS.length]}"/>`,
      text(across + 14, height - 11, name),
    );
    across += 24 + 6 * name.length;
  }
  return `${parts.join('\n')}\n</svg>\n`;
}

const text = (x: number, y: number, words: string, anchor = 'start') =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" text-anchor="${anchor}">${words.replace(/[&<]/g, (one) => (one === '&' ? '&amp;' : '&lt;'))}</text>`;

/** Four to ten round figures from nought. */
function ticks(most: number): number[] {
  const rough = most / 6;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ten * ([1, 2, 5].find((one) => one * ten >= rough) ?? 10);
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, i) =>
    Number((i * step).toPrecision(6)),
  );
}
