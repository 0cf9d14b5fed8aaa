import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, test } from 'vitest';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { badNumbers } from './read.ts';
import { SEEDS, SPLINTERS } from './seeds.ts';

const LINES = 1_000_000;

test('a million mutated lines and random bytes: nothing throws, no number is bad, every piece is judged', () => {
  const random = xoroshiro128plus(20_261_125);
  const below = (n: number) => uniformInt(random, 0, n - 1);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)]!;

  const mutate = (line: string): string => {
    const at = below(line.length + 1);
    switch (below(6)) {
      case 0:
        return line.slice(0, at) + pick(SPLINTERS) + line.slice(at + 1);
      case 1:
        return line.slice(0, at) + pick(SPLINTERS) + line.slice(at);
      case 2:
        return line.slice(0, at) + line.slice(at + 1 + below(6));
      case 3:
        return line.slice(0, at);
      case 4:
        return line.slice(0, at) + pick(SEEDS).slice(below(20));
      default:
        return line.slice(0, at) + String.fromCharCode(below(256)) + line.slice(at + 1);
    }
  };
  const bytes = () => {
    let line = below(2) === 0 ? '' : '$GP';
    for (let n = below(40); n > 0; n--) line += String.fromCharCode(below(256));
    return line;
  };
  /** Half of the damaged lines get a right checksum again, as loggers and multiplexers give them. */
  const line = (i: number): string => {
    if (i % 10 === 0) return bytes();
    let damaged = mutate(pick(SEEDS));
    while (below(3) === 0) damaged = mutate(damaged);
    const star = damaged.lastIndexOf('*');
    return below(2) === 0 ? damaged : withChecksum(star < 0 ? damaged : damaged.slice(0, star));
  };

  const seen = { sentence: 0, checksum: 0, malformed: 0, unknown: 0 };
  const bad: string[] = [];
  for (let i = 0; i < LINES; i++) {
    const text = line(i);
    const pieces = splitLine(text);
    if (pieces.length === 0 && text.trim() !== '') bad.push(`no piece: ${JSON.stringify(text)}`);
    for (const piece of pieces) {
      const decoded = decode(piece, { requireChecksum: below(4) > 0 });
      seen[decoded.ok ? 'sentence' : decoded.reason]++;
      if (!decoded.ok) continue;
      for (const observation of decoded.observations) {
        const numbers = badNumbers(observation);
        if (numbers.length > 0) bad.push(`${numbers}: ${JSON.stringify(piece)}`);
        if (observation.kind === 'position' && observation.lat === 0 && observation.lon === 0)
          bad.push(`0/0: ${JSON.stringify(piece)}`);
      }
    }
  }
  expect(bad.slice(0, 10)).toEqual([]);
  // The damage must reach every part of the decoder, or the test would show little.
  for (const [what, count] of Object.entries(seen)) expect([what, count > LINES / 100]).toEqual([what, true]);
});
