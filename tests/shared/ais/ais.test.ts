import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { assemble, type Parts } from '../../../shared/ais/assemble.ts';
import { bitsOf } from '../../../shared/ais/bits.ts';
import { type AisMessage, type Read, readMessage } from '../../../shared/ais/message.ts';
import { toKnots } from '../../../shared/quantities/units.ts';
import { checksum, checksumDigits } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { recorded } from '../../recorded.ts';

/** Every message of some lines, in order. */
function readAll(lines: Iterable<string>): { read: Read; payload: string; fillBits: number }[] {
  const parts: Parts = [];
  const all: { read: Read; payload: string; fillBits: number }[] = [];
  for (const line of lines)
    for (const piece of splitLine(line)) {
      const sentence = decode(piece, { requireChecksum: true });
      if (!sentence.ok) continue;
      for (const said of sentence.observations) {
        const whole = said.kind === 'ais-fragment' && assemble(parts, said, 'test', 0);
        if (whole) all.push({ ...whole, read: readMessage(bitsOf(whole.payload, whole.fillBits)) });
      }
    }
  return all;
}

const messageOf = (...lines: string[]): AisMessage => {
  const { read } = readAll(lines).at(-1)!;
  if (!read.ok) throw new Error(read.why);
  return read.message;
};

/** A payload from [value, bits] pairs, for what no publication shows: [C] by the field tables of gpsd AIVDM.adoc. */
function armour(fields: [number, number][]): string {
  const bits = fields
    .map(([value, size]) => (value < 0 ? value + 2 ** size : value).toString(2).padStart(size, '0'))
    .join('');
  return (bits.padEnd(Math.ceil(bits.length / 6) * 6, '0').match(/.{6}/g) ?? [])
    .map((six) => {
      const value = Number.parseInt(six, 2);
      return String.fromCharCode(value + (value < 40 ? 48 : 56));
    })
    .join('');
}

function sentence(payload: string, fillBits = 0): string {
  const body = `AIVDM,1,1,,A,${payload},${fillBits}`;
  return `!${body}*${checksumDigits(checksum(body, 0, body.length))}`;
}

describe('published messages [F] gpsd AIVDM.adoc, values by its own decoder (gpsdecode 3.22)', () => {
  test('type 5 in two parts', () => {
    expect(
      messageOf(
        '!AIVDM,2,1,3,B,55P5TL01VIaAL@7WKO@mBplU@<PDhh000000001S;AJ::4A80?4i@E53,0*3E',
        '!AIVDM,2,2,3,B,1@0000000000000,2*55',
      ),
    ).toEqual({
      type: 5,
      mmsi: 369190000,
      unit: 'A',
      callSign: 'WDA9674',
      name: 'MT.MITCHELL',
      shipType: 99,
      extent: { toBow: 90, toStern: 90, toPort: 10, toStarboard: 10 },
    });
  });

  test('type 1', () => {
    const message = messageOf('!AIVDM,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*13');
    expect(message).toMatchObject({ type: 1, mmsi: 367078250, status: 8, cog: 213, heading: 226, unit: 'A' });
    expect(message.position!.lon).toBeCloseTo(-42635680 / 600000, 9);
    expect(message.position!.lat).toBeCloseTo(25430490 / 600000, 9);
    expect(toKnots(message.sog!)).toBeCloseTo(0.5, 9);
  });
});

const { AisDecode } = createRequire(import.meta.url)('ggencoder') as {
  AisDecode: new (nmea: string, session?: object) => Record<string, number | string | boolean>;
};

const FILES = ['ais/aislib_stream.txt', 'ais/libais_tagblock.nmea', 'ais/pyais_nmea_data_sample.txt'];

describe.each(FILES)('recorded stream %s', (file) => {
  const path = recorded(file);
  if (path === undefined) {
    test('NOT TESTED: the recording is not here', () => {});
    return;
  }
  const lines = readFileSync(path, 'latin1').split(/\r?\n/);
  const all = readAll(lines);

  test('agrees with ggencoder 1.0.10 (a development-only oracle)', () => {
    let compared = 0;
    for (const { read, payload, fillBits } of all) {
      if (!read.ok) continue;
      const { message } = read;
      if (![1, 2, 3, 18].includes(message.type) || !message.position || fillBits !== 0) continue;
      const theirs = new AisDecode(sentence(payload, fillBits));
      if (theirs.valid !== true) continue;
      compared++;
      expect(Number(theirs.mmsi)).toBe(message.mmsi);
      expect(theirs.lon as number).toBeCloseTo(message.position.lon, 5);
      expect(theirs.lat as number).toBeCloseTo(message.position.lat, 5);
      if (message.sog !== undefined) expect(theirs.sog as number).toBeCloseTo(toKnots(message.sog), 5);
      if (message.cog !== undefined) expect(theirs.cog as number).toBeCloseTo(message.cog, 5);
    }
    console.log(`${file}: ${compared} positions compared with ggencoder`);
    expect(compared).toBeGreaterThan(2);
  });

  test('agrees with gpsdecode 3.22, field by field', () => {
    if (spawnSync('gpsdecode', ['-V']).error) {
      console.log('NOT TESTED: gpsdecode is not installed (Debian package gpsd-clients)');
      return;
    }
    // Each message alone, so that theirs and ours cannot be mixed up; the program reads at most 82 characters a sentence.
    let compared = 0;
    const mine = all.filter(({ read, payload }) => read.ok && payload.length <= 60);
    const out = execFileSync('gpsdecode', ['-j', '-u'], {
      input: mine.map(({ payload, fillBits }) => `${sentence(payload, fillBits)}\r\n`).join(''),
      maxBuffer: 1e8,
    }).toString();
    const theirs = out.split('\n').filter((line) => line.includes('"class":"AIS"'));
    const byKey = new Map<string, Record<string, number>[]>();
    for (const line of theirs) {
      const told = JSON.parse(line) as Record<string, number>;
      const key = `${told.type}/${told.mmsi}`;
      byKey.set(key, [...(byKey.get(key) ?? []), told]);
    }
    for (const { read } of mine) {
      if (!read.ok) continue;
      const { message } = read;
      const told = byKey.get(`${message.type}/${message.mmsi}`)?.shift();
      if (!told || message.type === 24) continue;
      compared++;
      const { lat, lon } = message.position ?? {};
      if (lat !== undefined && lon !== undefined) {
        expect(told.lat! / 600000).toBeCloseTo(lat, 9);
        expect(told.lon! / 600000).toBeCloseTo(lon, 9);
      } else {
        expect(told.lon === 108600000 || told.lat === 54600000 || (told.lon === 0 && told.lat === 0)).toBe(
          true,
        );
      }
      expect(message.sog === undefined ? 1023 : Math.round(toKnots(message.sog) * 10)).toBe(told.speed);
      expect(message.cog === undefined ? 3600 : Math.round(message.cog * 10)).toBe(
        Math.min(3600, told.course!),
      );
      expect(message.heading ?? 511).toBe(told.heading! < 360 ? told.heading : 511);
      if (message.unit === 'A') expect(message.status ?? 15).toBe(told.status);
    }
    console.log(`${file}: ${compared} messages compared with gpsdecode`);
    expect(compared).toBeGreaterThan(2);
  });

  test('tells no ship at 0/0 and none off the globe', () => {
    for (const { read } of all) {
      if (!read.ok || !read.message.position) continue;
      const { lat, lon } = read.message.position;
      expect(Math.abs(lat) + Math.abs(lon)).toBeGreaterThan(0);
      expect(Math.abs(lat)).toBeLessThanOrEqual(90);
      expect(Math.abs(lon)).toBeLessThanOrEqual(180);
    }
  });
});

describe('constructed messages [C], fields by gpsd AIVDM.adoc', () => {
  const lon = Math.round(-7.25 * 600000);
  const lat = Math.round(57.5 * 600000);
  const head = (type: number, mmsi = 235000001): [number, number][] => [
    [type, 6],
    [0, 2],
    [mmsi, 30],
  ];
  const moving = (from: [number, number][]): [number, number][] => [
    ...from,
    [0, 8],
    [3, 10],
    [1, 1],
    [lon, 28],
    [lat, 27],
    [1234, 12],
    [77, 9],
    [30, 6],
  ];
  const name = [...'HALCYON'.padEnd(20, '@')].map((c): [number, number] => [
    c === '@' ? 0 : c.charCodeAt(0) - 64,
    6,
  ]);

  test('type 19 tells place, name and size at once', () => {
    const payload = armour([
      ...moving(head(19)),
      [0, 4],
      ...name,
      [36, 8],
      [4, 9],
      [8, 9],
      [2, 6],
      [2, 6],
      [0, 11],
    ]);
    const message = messageOf(sentence(payload));
    expect(message).toMatchObject({
      type: 19,
      unit: 'B',
      name: 'HALCYON',
      shipType: 36,
      cog: 123.4,
      heading: 77,
    });
    expect(message.extent).toEqual({ toBow: 4, toStern: 8, toPort: 2, toStarboard: 2 });
    expect(message.position!.lat).toBeCloseTo(57.5, 6);
  });

  test('type 24: the parts, and an auxiliary craft has no size', () => {
    expect(messageOf(sentence(armour([...head(24), [0, 2], ...name])))).toEqual({
      type: 24,
      mmsi: 235000001,
      unit: 'B',
      name: 'HALCYON',
    });
    const partB = (mmsi: number) =>
      messageOf(
        sentence(
          armour([
            ...head(24, mmsi),
            [1, 2],
            [37, 8],
            [0, 42],
            [0, 42],
            [4, 9],
            [8, 9],
            [2, 6],
            [2, 6],
            [0, 6],
          ]),
        ),
      );
    expect(partB(235000001).extent).toEqual({ toBow: 4, toStern: 8, toPort: 2, toStarboard: 2 });
    expect(partB(982350001).extent).toBeUndefined();
  });

  test('type 27 is coarse, and says so', () => {
    const payload = armour([
      ...head(27),
      [0, 2],
      [1, 4],
      [Math.round(-7.25 * 600), 18],
      [Math.round(57.5 * 600), 17],
      [0, 6],
      [359, 9],
      [0, 2],
    ]);
    const message = messageOf(sentence(payload));
    expect(message).toMatchObject({
      type: 27,
      status: 1,
      sog: 0,
      cog: 359,
      position: { lat: 57.5, lon: -7.25 },
    });
    expect(message.resolution).toBeCloseTo(185.2, 1);
  });

  test('what is not available is absent; 0/0 is no place; off the globe is refused', () => {
    const at = (x: number, y: number) =>
      readAll([
        sentence(
          armour([
            ...head(18),
            [0, 8],
            [1023, 10],
            [0, 1],
            [x, 28],
            [y, 27],
            [3600, 12],
            [511, 9],
            [60, 6],
            [0, 29],
          ]),
        ),
      ]).at(-1)!.read;
    expect(at(181 * 600000, 91 * 600000)).toEqual({
      ok: true,
      message: { type: 18, mmsi: 235000001, unit: 'B' },
    });
    expect(at(0, 0)).toEqual({ ok: true, message: { type: 18, mmsi: 235000001, unit: 'B' } });
    expect(at(200 * 600000, 10)).toMatchObject({ ok: false, reason: 'malformed' });
  });

  test('short, numberless and unheard-of messages are refused with a reason', () => {
    const read = (payload: string) => readMessage(bitsOf(payload, 0));
    expect(read('')).toMatchObject({ ok: false, reason: 'malformed' });
    expect(read(armour([...head(1), [0, 60]]))).toMatchObject({ ok: false, reason: 'malformed' });
    expect(read(armour([...head(1, 0), [0, 130]]))).toMatchObject({ ok: false, reason: 'malformed' });
    expect(read(armour([...head(40), [0, 130]]))).toMatchObject({ ok: false, reason: 'malformed' });
    expect(read(armour([...head(4), [0, 130]]))).toMatchObject({ ok: false, reason: 'other' });
  });
});

test('parts in any order make the same message; a lost part makes none', () => {
  const first = '!AIVDM,2,1,3,B,55P5TL01VIaAL@7WKO@mBplU@<PDhh000000001S;AJ::4A80?4i@E53,0*3E';
  const second = '!AIVDM,2,2,3,B,1@0000000000000,2*55';
  expect(readAll([second, first])).toEqual(readAll([first, second]));
  expect(readAll([first, first])).toEqual([]);
  const parts: Parts = [];
  const part = {
    kind: 'ais-fragment',
    own: false,
    total: 2,
    channel: 'A',
    payload: '1',
    fillBits: 0,
  } as const;
  assemble(parts, { ...part, number: 1 }, 'a', 0);
  expect(assemble(parts, { ...part, number: 2 }, 'b', 0)).toBeUndefined();
  expect(assemble(parts, { ...part, number: 2 }, 'a', 60)).toBeUndefined();
  for (let i = 0; i < 1000; i++)
    assemble(parts, { ...part, sequence: i % 10, channel: String(i), number: 1 }, 'c', 61);
  expect(parts.length).toBeLessThanOrEqual(40);
});

test('property: no payload whatever throws, or puts a ship at 0/0 or off the globe', () => {
  const letters = [...'0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVW`abcdefghijklmnopqrstuvw'];
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...letters), { maxLength: 80 }).map((all) => all.join('')),
      fc.integer({ min: 0, max: 5 }),
      (payload, fillBits) => {
        const read = readMessage(bitsOf(payload, fillBits));
        if (!read.ok || !read.message.position) return;
        const { lat, lon } = read.message.position;
        expect(lat === 0 && lon === 0).toBe(false);
        expect(Math.abs(lat) <= 90 && Math.abs(lon) <= 180).toBe(true);
      },
    ),
    { numRuns: 3000 },
  );
});
