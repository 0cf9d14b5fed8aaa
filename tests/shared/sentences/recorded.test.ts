import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Rejection, Sentence } from '../../../shared/sentences/decoded.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { recorded } from '../../recorded.ts';
import { badNumbers, only } from './read.ts';

const FOLDERS = ['quirks', 'damaged', 'ais', 'boat-lake', 'boat-ijsselmeer-2018', 'static'];

interface Reading {
  lines: string[];
  pieces: number;
  sentences: Sentence[];
  rejected: Record<Rejection, number>;
}

const readings = new Map<string, Reading>();

/** Every line of a recording, split and decoded, once. */
function read(path: string): Reading {
  const known = readings.get(path);
  if (known !== undefined) return known;
  const bytes = readFileSync(path);
  const text = (path.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('latin1');
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const reading: Reading = {
    lines,
    pieces: 0,
    sentences: [],
    rejected: { checksum: 0, malformed: 0, unknown: 0 },
  };
  for (const line of lines) {
    for (const piece of splitLine(line)) {
      reading.pieces++;
      const decoded = decode(piece, { requireChecksum: true });
      if (decoded.ok) reading.sentences.push(decoded);
      else reading.rejected[decoded.reason]++;
    }
  }
  readings.set(path, reading);
  return reading;
}

/** Bad numbers, and positions that no receiver has been at, in one observation. */
function faults(observation: Observation): string[] {
  const bad = badNumbers(observation, observation.kind);
  if (observation.kind !== 'position') return bad;
  const { lat, lon } = observation;
  const possible = Math.abs(lat) <= 90 && Math.abs(lon) <= 180 && !(lat === 0 && lon === 0);
  return possible ? bad : [...bad, `position ${lat} ${lon}`];
}

const files = FOLDERS.flatMap((folder) => {
  const path = recorded(folder);
  return path === undefined
    ? []
    : readdirSync(path).map((name) => [`${folder}/${name}`, join(path, name)] as const);
});

describe.each(files)('%s', (_, path) => {
  test('every piece is either a sentence or refused, and no number is bad', () => {
    const { lines, pieces, sentences, rejected } = read(path);
    expect(pieces).toBeGreaterThanOrEqual(lines.length);
    expect(sentences.length + rejected.checksum + rejected.malformed + rejected.unknown).toBe(pieces);
    expect(sentences.flatMap(({ observations }) => observations.flatMap(faults))).toEqual([]);
  });
});

/** Reads a recording, or runs nothing when it is absent (which `recorded` has said). */
function withRecording(name: string, path: string, check: (reading: Reading) => void): void {
  const full = recorded(path);
  test.skipIf(full === undefined)(name, () => check(read(full!)));
}
const all = <K extends Observation['kind']>({ sentences }: Reading, kind: K) =>
  sentences.flatMap(({ observations }) =>
    observations.filter((o): o is Extract<Observation, { kind: K }> => o.kind === kind),
  );

describe('what is known of the recordings', () => {
  withRecording(
    'IJsselmeer: no line is lost, and only route sentences are unknown',
    'boat-ijsselmeer-2018/ijsselmeer.nmea',
    (reading) => {
      expect(reading.pieces).toBe(4999);
      expect(reading.rejected).toEqual({ checksum: 0, malformed: 0, unknown: 885 });
      for (const { lat, lon } of all(reading, 'position')) {
        expect(lat).toBeCloseTo(52.85, 1);
        expect(lon).toBeCloseTo(5.3, 1);
      }
      for (const { sog } of all(reading, 'motion')) expect(sog).toBeGreaterThan(2);
    },
  );

  withRecording(
    'lake 2008: the 1020 checksums of one digit are refused, nothing else (README)',
    'boat-lake/lake-2008-07-10.nmea.gz',
    (reading) => {
      expect(reading.rejected).toEqual({ checksum: 1020, malformed: 0, unknown: 1489 });
    },
  );

  withRecording('lake 2014: every sentence is read', 'boat-lake/lake-2014-06-27.nmea.gz', (reading) => {
    expect(reading.rejected).toEqual({ checksum: 0, malformed: 0, unknown: 0 });
    expect(reading.sentences.length).toBe(81_813);
    for (const { resolution } of all(reading, 'position')) expect(resolution).toBeCloseTo(1.852, 9);
  });

  withRecording('lake 2014-08-19: offset +0.7 (README)', 'boat-lake/lake-2014-08-19.nmea.gz', (reading) => {
    expect(new Set(all(reading, 'depth').map(({ offset }) => offset))).toEqual(new Set([0.7]));
  });

  withRecording(
    'power-up: the garbage is refused although its checksums are right',
    'damaged/powerup-2015-04-29-60.nmea',
    (reading) => {
      expect(reading.rejected.malformed).toBeGreaterThan(20);
      expect(reading.sentences.length).toBeGreaterThan(500);
    },
  );

  withRecording('simulator mode: no position in the whole log', 'quirks/garmin-geko201.log', (reading) => {
    expect(all(reading, 'position')).toEqual([]);
    expect(all(reading, 'motion')).toEqual([]);
    expect(new Set(all(reading, 'no-position').map(({ reason }) => reason))).toEqual(new Set(['simulated']));
  });

  withRecording(
    'no fix: 36000.0000 and 0000.0000 are never a position',
    'quirks/tn200-all.log',
    (reading) => {
      expect(all(reading, 'no-position').length).toBeGreaterThan(0);
      for (const { lat } of all(reading, 'position')) expect(lat).toBeCloseTo(53.5, 0);
    },
  );

  withRecording('empty HDT before the fix (hemi.log) is no heading of 0', 'quirks/hemi.log', (reading) => {
    const empty = reading.sentences.filter(
      ({ id, observations }) => id === 'HDT' && observations.length === 0,
    );
    expect(empty.length).toBeGreaterThan(0);
    expect(all(reading, 'heading').every(({ heading }) => heading > 0)).toBe(true);
  });

  withRecording(
    'sentences without a line end between them are all found',
    'quirks/gp-320fw-2019-04-07-coldboot.log',
    (reading) => {
      const glued = reading.lines.filter((line) => /.\$GP[A-Z]{3},/.test(line));
      expect(glued.length).toBe(5);
      expect(reading.pieces).toBe(reading.lines.length + glued.length);
      const times = all(reading, 'time').map(({ timeOfDay }) => timeOfDay);
      for (const [h, m, s] of [
        [23, 59, 49],
        [23, 59, 50],
        [0, 0, 2],
        [0, 4, 10],
        [0, 4, 25],
      ] as const)
        expect(times).toContain(h * 3600 + m * 60 + s);
    },
  );

  withRecording(
    'AIS stream: all 898 parts, with their channel',
    'ais/pyais_nmea_data_sample.txt',
    (reading) => {
      expect(all(reading, 'ais-fragment').length).toBe(898);
      for (const { channel } of all(reading, 'ais-fragment')) expect(channel).toMatch(/^[AB12]?$/);
    },
  );

  withRecording(
    'TAG blocks of a shore station: each gives its time',
    'ais/libais_tagblock.nmea',
    (reading) => {
      expect(reading.sentences.map(({ tag }) => tag?.at)).toEqual([
        1418169601, 1418172113, 1418169601, 1418171722, 1418171561,
      ]);
    },
  );

  withRecording(
    '24 hours of a fixed antenna stay within 20 m',
    'static/esbjerg-2020-06-25-gps-l1.nmea.gz',
    (reading) => {
      const lats = all(reading, 'position').map(({ lat }) => lat);
      expect(lats.length).toBe(5760);
      expect((Math.max(...lats) - Math.min(...lats)) * 60 * 1852).toBeLessThan(20);
    },
  );

  withRecording(
    'the date after the week rollover is unknown, and then wrong as the receiver sends it',
    'quirks/april6_2019.log',
    (reading) => {
      expect(all(reading, 'time').map(({ date }) => date)).toEqual([undefined, Date.UTC(1999, 7, 22) / 1000]);
      expect(only(reading.sentences[0]!.observations, 'no-position')?.reason).toBe('no-fix');
    },
  );
});
