import { build } from 'vite';
import { beforeAll, describe, expect, test } from 'vitest';
import { browser, useBrowser } from './stage.ts';

// The sounds, rendered by the browser's own audio engine without a loudspeaker, and looked at by their spectrum and envelope.

type Voice = 'alarm' | 'warning' | 'caution' | 'linkLost';
interface Rendered {
  samples: number[];
  rate: number;
}

const rendered = {} as Record<Voice, Rendered>;

useBrowser();
beforeAll(async () => {
  const made = await build({
    logLevel: 'warn',
    build: {
      write: false,
      minify: false,
      lib: {
        entry: new URL('../../web/voices.ts', import.meta.url).pathname,
        formats: ['iife'],
        name: 'voices',
      },
    },
  });
  const [{ output }] = made as unknown as [{ output: { code: string }[] }];
  const page = await browser.newPage();
  await page.evaluate(`${output[0]!.code}; globalThis.voices = voices;`);
  for (const name of ['alarm', 'warning', 'caution', 'linkLost'] as const) {
    rendered[name] = (await page.evaluate(`(async () => {
      const { VOICES, play } = globalThis.voices;
      const rate = 24000;
      const context = new OfflineAudioContext(1, rate * 2, rate);
      play(context, context.destination, VOICES.${name}, 1);
      const buffer = await context.startRendering();
      return { samples: [...buffer.getChannelData(0)], rate };
    })()`)) as Rendered;
  }
});

/** Amplitude of one frequency over a stretch, by Goertzel's recurrence with a Hann window. */
function amplitude({ samples, rate }: Rendered, hertz: number, from: number, lasts: number): number {
  const part = samples.slice(Math.round(from * rate), Math.round((from + lasts) * rate));
  const w = (2 * Math.PI * hertz) / rate;
  let a = 0;
  let b = 0;
  part.forEach((sample, i) => {
    const hann = 1 - Math.cos((2 * Math.PI * i) / part.length);
    [a, b] = [sample * hann + 2 * Math.cos(w) * a - b, a];
  });
  return (2 * Math.sqrt(a * a + b * b - 2 * Math.cos(w) * a * b)) / part.length;
}

/** Bursts: stretches above a tenth of the peak, closer than 60 ms counted as one. */
function bursts({ samples, rate }: Rendered): number[] {
  const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const starts: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  samples.forEach((sample, i) => {
    if (Math.abs(sample) < peak / 10) return;
    if (i - last > 0.06 * rate) starts.push(i / rate);
    last = i;
  });
  return starts;
}

/** The strongest frequency of a burst, to 10 Hz. */
function pitch(voice: Rendered, from: number): number {
  const all = Array.from({ length: 350 }, (_, i) => 200 + 10 * i);
  const loud = all.map((hertz) => amplitude(voice, hertz, from + 0.03, 0.2));
  return all[loud.indexOf(Math.max(...loud))]!;
}

/** Share of the energy between two frequencies, by Parseval over a comb of 20 Hz. */
function share(voice: Rendered, low: number, high: number, from: number): number {
  const comb = Array.from({ length: 590 }, (_, i) => 100 + 20 * i);
  const energy = comb.map((hertz) => amplitude(voice, hertz, from + 0.03, 0.3) ** 2);
  const sum = (fits: (hertz: number) => boolean) =>
    energy.reduce((total, value, i) => total + (fits(comb[i]!) ? value : 0), 0);
  return sum((hertz) => hertz >= low && hertz <= high) / sum(() => true);
}

describe('the alarm', () => {
  test('is three short signals [M: IEC 62923-1]', () => {
    expect(bursts(rendered.alarm)).toHaveLength(3);
  });

  test('holds a 520 Hz square wave: odd harmonics by 1/n [F: Fourier series; NFPA 72 §18.4.6 asks 520 Hz ± 10 % for sleepers]', () => {
    // In the second signal the overtone (1310 Hz) lies beside the harmonics.
    const second = bursts(rendered.alarm)[1]!;
    const at = (hertz: number) => amplitude(rendered.alarm, hertz, second + 0.03, 0.33);
    expect(pitch(rendered.alarm, second)).toBe(520);
    const first = at(520);
    for (const n of [3, 5, 7]) {
      expect(at(520 * n) / first).toBeGreaterThan(0.9 / n);
      expect(at(520 * n) / first).toBeLessThan(1.1 / n);
    }
    expect(at(520 * 2) / first).toBeLessThan(0.02);
  });

  test('an overtone steps upwards from signal to signal', () => {
    const starts = bursts(rendered.alarm);
    [1040, 1310, 1560].forEach((hertz, i) => {
      expect(amplitude(rendered.alarm, hertz, starts[i]! + 0.03, 0.3)).toBeGreaterThan(0.25);
    });
    expect(amplitude(rendered.alarm, 1310, starts[0]! + 0.03, 0.3)).toBeLessThan(0.02);
  });

  test('has its energy between 200 and 2500 Hz [M: A.1021(26)], and most of it above 500, where phones are loud', () => {
    for (const start of bursts(rendered.alarm)) {
      expect(share(rendered.alarm, 200, 2500, start)).toBeGreaterThan(0.9);
      expect(share(rendered.alarm, 500, 4000, start)).toBeGreaterThan(0.95);
    }
  });

  test('never clips', () => {
    for (const { samples } of Object.values(rendered))
      expect(samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)).toBeLessThanOrEqual(1);
  });
});

describe('the other signals cannot be taken for it', () => {
  test('by their number: warning two, lost link two pairs, caution one', () => {
    expect(bursts(rendered.warning)).toHaveLength(2);
    expect(bursts(rendered.caution)).toHaveLength(1);
    const lost = bursts(rendered.linkLost);
    expect(lost.length === 4 || lost.length === 2).toBe(true);
  });

  test('by their pitch: none of them lies within a third of the alarm’s, the lost link falls', () => {
    const third = 2 ** (3 / 12);
    for (const name of ['warning', 'caution', 'linkLost'] as const)
      expect(pitch(rendered[name], bursts(rendered[name])[0]!) / 520).toBeGreaterThan(third);
    const start = bursts(rendered.linkLost)[0]!;
    expect(pitch(rendered.linkLost, start)).toBeGreaterThan(pitch(rendered.linkLost, start + 0.3));
  });

  test('by their loudness: alarm above warning above caution', () => {
    const power = ({ samples }: Rendered) =>
      Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);
    expect(power(rendered.alarm)).toBeGreaterThan(1.5 * power(rendered.warning));
    expect(power(rendered.warning)).toBeGreaterThan(2 * power(rendered.caution));
  });
});
