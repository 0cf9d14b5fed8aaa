import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createFramer } from '../../../server/intake/framer.ts';

interface Framed {
  lines: string[];
  discarded: number;
  held: number;
}

function frame(chunks: Buffer[], cap?: number): Framed {
  const lines: string[] = [];
  let discarded = 0;
  let held = 0;
  const framer = createFramer({
    ...(cap === undefined ? {} : { cap }),
    online: (line) => lines.push(line),
    onoverlong: (bytes) => {
      discarded += bytes;
    },
  });
  for (const chunk of chunks) {
    framer.push(chunk);
    held = Math.max(held, framer.held);
  }
  framer.flush();
  return { lines, discarded, held };
}
const text = (content: string, cap?: number) => frame([Buffer.from(content, 'latin1')], cap);

describe('the framer', () => {
  test('LF, CRLF and CR end a line; blank lines vanish; the last line needs no end', () => {
    expect(text('$A\r\n$B\n$C\r\r\n \t \n\n$D').lines).toEqual(['$A', '$B', '$C', '$D']);
  });

  test('8-bit noise and NUL are kept as they came, one character a byte', () => {
    expect(text('\x00\xff\x80$GP\xa0\n\x00\n\xa0\n').lines).toEqual(['\x00\xff\x80$GP\xa0', '\x00', '\xa0']);
  });

  test('spaces around a sentence are not its business', () => {
    expect(text('  $A \n').lines).toEqual(['  $A ']);
  });

  test('a line of just the cap passes; one more character and it is discarded and counted', () => {
    expect(text(`$${'x'.repeat(63)}\n$B\n`, 64)).toMatchObject({
      lines: [`$${'x'.repeat(63)}`, '$B'],
      discarded: 0,
    });
    expect(text(`$${'x'.repeat(64)}\n$B\n`, 64)).toMatchObject({ lines: ['$B'], discarded: 65 });
  });

  test('noise without line end is discarded up to the next sentence or TAG block, which is kept', () => {
    for (const next of ['$GPRMC,1', '!AIVDM,1', '\\s:a*00\\$GPRMC,1'])
      expect(text(`${'x'.repeat(200)}${next}\n`, 64)).toMatchObject({ lines: [next], discarded: 200 });
  });

  test('a sender without line ends is still understood: cut where a sentence begins', () => {
    const stream = Array.from({ length: 40 }, (_, i) => `$GPXXX,${i}*00`);
    const { lines, discarded } = text(stream.join(''), 64);
    expect(lines.join('')).toBe(stream.join(''));
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(64);
    expect(discarded).toBe(0);
  });

  const byte = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...Buffer.from('$!\\*,G7')) },
    { weight: 3, arbitrary: fc.constantFrom(0x0a, 0x0d) },
    { weight: 6, arbitrary: fc.integer({ min: 0, max: 255 }) },
  );
  const bytes = fc.array(
    fc.oneof({ weight: 20, arbitrary: byte.map((one) => [one]) }, fc.array(byte, { minLength: 20 }), {
      weight: 1,
      arbitrary: fc.integer({ min: 1, max: 9000 }).map((count) => new Array<number>(count).fill(0x78)),
    }),
    { maxLength: 200 },
  );
  const cuts = fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 40 });

  test('property: however the bytes were chopped, lines and discarded bytes are the same', () => {
    fc.assert(
      fc.property(bytes, cuts, (parts, sizes) => {
        const all = Buffer.from(parts.flat());
        const chunks: Buffer[] = [];
        for (let from = 0, i = 0; from < all.length; i++) {
          const size = sizes[i % sizes.length]!;
          chunks.push(all.subarray(from, from + size));
          from += size;
        }
        const whole = frame([all], 48);
        const chopped = frame(chunks, 48);
        expect(chopped.lines).toEqual(whole.lines);
        expect(chopped.discarded).toBe(whole.discarded);
        expect(chopped.held).toBeLessThanOrEqual(48);
      }),
      { numRuns: 300 },
    );
  });

  test('property: every byte is in a line, discarded and counted, or white space', () => {
    fc.assert(
      fc.property(bytes, (parts) => {
        const all = Buffer.from(parts.flat());
        const { lines, discarded } = frame([all], 48);
        const white = (content: string) => content.replace(/[^ \t\v\f\r\n]/g, '').length;
        const kept = lines.reduce((sum, line) => sum + line.length - white(line), 0);
        const whole = all.toString('latin1');
        // White space within discarded text is counted with it, so the sum lies between the two.
        expect(kept + discarded).toBeGreaterThanOrEqual(whole.length - white(whole));
        expect(kept + discarded).toBeLessThanOrEqual(whole.length);
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(48);
      }),
    );
  });

  test('10 MB of noise without line end: what is held stays under the cap, all of it is counted as it comes', () => {
    let discarded = 0;
    let reports = 0;
    const framer = createFramer({
      online: () => expect.unreachable('there is no line in it'),
      onoverlong: (bytes) => {
        discarded += bytes;
        reports++;
      },
    });
    const chunk = Buffer.alloc(1000, 0xfe);
    for (let i = 0; i < 10_000; i++) {
      framer.push(chunk);
      expect(framer.held).toBeLessThanOrEqual(512);
    }
    expect(discarded).toBeGreaterThan(9_990_000);
    expect(reports).toBeLessThan(1300);
    framer.flush();
    expect(discarded).toBe(10_000_000);
  });

  test.each([
    ['without any start of a sentence', 'x'],
    ['of nothing but starts', '$'],
    ['with a start here and there', `$${'x'.repeat(600)}$y`],
  ])('noise %s: sixteen times as much takes about sixteen times as long', (_, pattern) => {
    const work = (megabytes: number) => {
      const chunk = Buffer.from(pattern.repeat(Math.ceil(4096 / pattern.length)), 'latin1');
      const times = [1, 2, 3].map(() => {
        const started = process.cpuUsage().user;
        frame(new Array<Buffer>(Math.ceil((megabytes * 1e6) / chunk.length)).fill(chunk));
        return process.cpuUsage().user - started;
      });
      return Math.min(...times);
    };
    work(1);
    // Quadratic would be 256; the processor's clock is coarse and shared, hence the generous factor and floor.
    expect(work(4)).toBeLessThan(90 * Math.max(work(0.25), 2000));
  });
});
