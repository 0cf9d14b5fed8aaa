import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { contrast, contrastTable, PAIRS, readPalettes, VISIONS } from '../looks/contrast.ts';

const palettes = readPalettes();

describe('the contrast of the palettes', () => {
  // [F] WCAG 2.2: black on white is 21:1; #767676 on white is the darkest known edge of 4.5:1 (4.54).
  test('the ratio is the published one', () => {
    expect(contrast('#000000', '#ffffff')).toBe(21);
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.53);
    expect(contrast('#767676', '#ffffff')).toBeLessThan(4.55);
  });

  test.each(Object.keys(palettes) as (keyof typeof palettes)[])(
    '%s: every pair is told apart, whatever the colour vision',
    (name) => {
      const poor: string[] = [];
      for (const [front, ground, least] of PAIRS) {
        for (const [vision, matrix] of Object.entries(VISIONS)) {
          const ratio = contrast(palettes[name][front]!, palettes[name][ground]!, matrix);
          if (!(ratio >= least))
            poor.push(`${front} on ${ground}, ${vision}: ${ratio.toFixed(2)} < ${least}`);
        }
      }
      expect(poor).toEqual([]);
    },
  );

  test('both palettes name the same colours', () => {
    expect(Object.keys(palettes).sort()).toEqual(['day', 'night']);
    expect(Object.keys(palettes.day).sort()).toEqual(Object.keys(palettes.night).sort());
  });

  test('night holds nothing white and little blue: every ink is amber, orange or black', () => {
    for (const [name, hex] of Object.entries(palettes.night)) {
      const [r, g, b] = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as [
        number,
        number,
        number,
      ];
      expect({ name, ok: b <= 0x5c && b <= g && g <= r }).toEqual({ name, ok: true });
    }
  });

  test('the table in docs/phones.md is this one', () => {
    const docs = readFileSync(fileURLToPath(new URL('../../docs/phones.md', import.meta.url)), 'utf8');
    expect(docs).toContain(contrastTable());
  });
});
