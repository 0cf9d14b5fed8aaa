import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The palettes as written in palette.css, and how well each pair that the pages put together can be told apart. */

export type PaletteName = 'day' | 'night';
export type Palette = Record<string, string>;

/** Foreground on ground, and the least ratio: 4.5 for text, 3 for lines and shapes that carry meaning (WCAG 2.2, 1.4.3 and 1.4.11). */
export const PAIRS: readonly [string, string, number][] = [
  ['ink', 'paper', 4.5],
  ['ink', 'water', 4.5],
  ['soft-ink', 'paper', 4.5],
  ['soft-ink', 'water', 4.5],
  ['paper', 'ink', 4.5],
  ['on-alarm', 'alarm', 4.5],
  ['on-warning', 'warning', 4.5],
  ['alarm', 'paper', 3],
  ['edge', 'paper', 3],
  ['circle', 'water', 3],
  ['track', 'water', 3],
  ['estimate', 'water', 3],
  ['caution', 'paper', 3],
];

export function readPalettes(): Record<PaletteName, Palette> {
  const css = readFileSync(fileURLToPath(new URL('../../web/styles/palette.css', import.meta.url)), 'utf8');
  const blocks = [...css.matchAll(/\[data-palette="(\w+)"\][^{]*\{([^}]*)\}/g)];
  return Object.fromEntries(
    blocks.map(([, name, body]) => [
      name,
      Object.fromEntries(
        [...body!.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, key, value]) => [key, value]),
      ),
    ]),
  ) as Record<PaletteName, Palette>;
}

type Rgb = readonly [number, number, number];

const linear = (hex: string): Rgb =>
  [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as unknown as Rgb;

/** Colour vision without one kind of cone, on linear RGB: Machado, Oliveira and Fernandes 2009, severity 1.0. */
export const VISIONS: Record<string, readonly Rgb[]> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

function luminance(hex: string, vision: readonly Rgb[]): number {
  const rgb = linear(hex);
  const [r, g, b] = vision.map((row) =>
    Math.min(1, Math.max(0, row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2])),
  ) as unknown as Rgb;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** WCAG contrast ratio of two colours, 1..21, as seen with that colour vision. */
export function contrast(a: string, b: string, vision: readonly Rgb[] = VISIONS.usual!): number {
  const [x, y] = [luminance(a, vision), luminance(b, vision)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

/** The table as Markdown. */
export function contrastTable(): string {
  const names = Object.keys(VISIONS);
  const rows = Object.entries(readPalettes()).flatMap(([palette, colours]) =>
    PAIRS.map(([front, ground, least]) => {
      const figures = names.map((name) =>
        contrast(colours[front]!, colours[ground]!, VISIONS[name]).toFixed(1),
      );
      return `| ${palette} | ${front} on ${ground} | ${least} | ${figures.join(' | ')} |`;
    }),
  );
  return [
    `| palette | pair | least | ${names.join(' | ')} |`,
    `| --- | --- | --- |${' --- |'.repeat(names.length)}`,
    ...rows,
  ].join('\n');
}
