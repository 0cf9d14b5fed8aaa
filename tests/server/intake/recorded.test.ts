import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, describe, expect, test } from 'vitest';
import { type RecordedLine, recordedLines } from '../../../server/intake/recorded.ts';
import { unixTime, utcOf } from '../../../shared/recording/utc.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { formatTag } from '../../../shared/sentences/tag.ts';
import { recorded } from '../../recorded.ts';

const folder = mkdtempSync(join(tmpdir(), 'hawse-recorded-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let files = 0;
function file(content: string | string[] | Buffer): string {
  const path = join(folder, `${files++}.nmea`);
  const bytes = Array.isArray(content) ? content.map((line) => `${line}\n`).join('') : content;
  writeFileSync(path, typeof bytes === 'string' ? Buffer.from(bytes, 'latin1') : bytes);
  return path;
}
async function read(...paths: string[]): Promise<{ lines: RecordedLine[]; notes: string[] }> {
  const { lines, notes } = recordedLines(paths);
  const all: RecordedLine[] = [];
  for await (const batch of lines) for (const line of batch) all.push(line);
  expect(all.findIndex(({ at }, i) => i > 0 && !(at >= all[i - 1]!.at))).toBe(-1);
  return { lines: all, notes };
}
const times = async (...paths: string[]) => (await read(...paths)).lines.map(({ at }) => at);

const T = Date.UTC(2024, 5, 1, 12) / 1000;
const clock = (at: number) => new Date(at * 1000).toISOString().slice(11, 19).replace(/:/g, '');
const date = (at: number) => new Date(at * 1000).toISOString().slice(2, 10).split('-').reverse().join('');
const rmc = (at: number) =>
  withChecksum(`GPRMC,${clock(at)},A,4612.829,N,00610.244,E,00.0,000,${date(at)},,,A`);
const gga = (at: number) =>
  withChecksum(`GPGGA,${clock(at)}.00,4612.829,N,00610.244,E,1,08,1.0,372,M,48,M,,`);
const depth = withChecksum('SDDPT,5.3,0.4');
const wind = withChecksum('WIMWV,57.5,R,13.0,N,A');

describe('recorded files', () => {
  test('plain or gzip whatever the name, LF, CRLF or CR, with a byte order mark, the last line without an end', async () => {
    const expected = [depth, wind, depth];
    for (const end of ['\n', '\r\n', '\r']) {
      const content = Buffer.from(expected.join(end), 'latin1');
      for (const bytes of [
        content,
        gzipSync(content),
        Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), content]),
      ])
        expect((await read(file(bytes))).lines.map(({ text }) => text)).toEqual(expected);
    }
  });

  test('8-bit noise is kept as it is', async () => {
    expect((await read(file('\x00\xff\xfe$GP\n'))).lines[0]!.text).toBe('\x00\xff\xfe$GP');
  });

  test('a compressed file that is cut off or damaged gives all that can be read, and says so', async () => {
    const body = Array.from({ length: 20_000 }, (_, i) => withChecksum(`SDDPT,${i}.0,0.4`)).join('\n');
    const whole = gzipSync(body);
    const cut = await read(file(whole.subarray(0, whole.length - 9)));
    expect(cut.lines).toHaveLength(20_000);
    expect(cut.notes.join()).toContain('damaged or cut off');
    const half = await read(file(whole.subarray(0, whole.length >> 1)));
    expect(half.lines.length).toBeGreaterThan(5000);
    expect(half.notes.join()).toContain('damaged or cut off');
    const spoilt = Buffer.from(whole);
    spoilt.fill(0xff, whole.length >> 1, (whole.length >> 1) + 200);
    const damaged = await read(file(spoilt));
    expect(damaged.lines.length).toBeGreaterThan(2000);
    expect(damaged.notes.join()).toContain('damaged or cut off');
  });

  test('noise without line end is passed over and told', async () => {
    const { lines, notes } = await read(file(`${'x'.repeat(100_000)}\n${depth}\n`));
    expect(lines.map(({ text }) => text)).toEqual([depth]);
    expect(notes.join()).toContain('100000 bytes without line end');
  });

  test('a file that cannot be read rejects; an empty one has no lines', async () => {
    await expect(read(join(folder, 'absent'))).rejects.toThrow(/ENOENT/);
    expect((await read(file(''))).lines).toEqual([]);
  });
});

describe('lines with TAG blocks', () => {
  test('time and source are those of the block, which is taken off: fractions, milliseconds, no source', async () => {
    const c = (body: string) => withChecksum(`$${body}`).slice(1);
    const { lines } = await read(
      file([
        `${formatTag(T + 0.25, 'udp1')}${depth}`,
        `\\${c(`s:wifi,c:${(T + 1) * 1000}`)}\\${wind}`,
        `\\${c(`c:${T + 2}`)}\\${wind}`,
      ]),
    );
    expect(lines).toEqual([
      { at: T + 0.25, source: 'udp1', text: depth },
      { at: T + 1, source: 'wifi', text: wind },
      { at: T + 2, source: 'file', text: wind },
    ]);
  });

  test("what stood behind the recorder's own block comes back to the byte: another TAG block, noise, nothing", async () => {
    for (const text of [
      `\\s:gw,c:1*00\\${depth}`,
      '\\',
      '\\\\\\',
      ' \xff\x80 ',
      `\\g:1-2-3*68\\${depth}`,
      'x',
    ])
      expect((await read(file([formatTag(T, 'a') + text]))).lines).toEqual([{ at: T, source: 'a', text }]);
  });

  test('a block with a wrong checksum tells no time, and stays for the decoder to refuse', async () => {
    const wrong = `\\s:udp1,c:${T + 500}*00\\${depth}`;
    const { lines } = await read(file([`${formatTag(T, 'udp1')}${wind}`, wrong]));
    expect(lines[1]).toEqual({ at: T, source: 'file', text: wrong });
  });

  test('lines without a block among others take the last block’s time, whatever UTC they tell', async () => {
    const path = file([
      depth,
      `${formatTag(T, 'a')}${depth}`,
      rmc(T + 999),
      `${formatTag(T + 1, 'a')}${depth}`,
      wind,
    ]);
    expect(await times(path)).toEqual([T, T, T, T + 1, T + 1]);
  });

  test('blocks whose time goes back keep the time before, and are told', async () => {
    const { lines, notes } = await read(
      file([T, T + 5, T + 3, T + 6].map((at) => `${formatTag(at, 'a')}${depth}`)),
    );
    expect(lines.map(({ at }) => at)).toEqual([T, T + 5, T + 5, T + 6]);
    expect(notes.join()).toContain('goes back 1 times');
  });

  test('files follow each other; one that begins earlier than the last ended is shifted as a whole, and told', async () => {
    const tagged = (...ats: number[]) => file(ats.map((at) => `${formatTag(at, 'a')}${depth}`));
    expect(await times(tagged(T, T + 1), tagged(T + 10))).toEqual([T, T + 1, T + 10]);
    const { lines, notes } = await read(tagged(T, T + 1), tagged(T - 100, T - 98));
    expect(lines.map(({ at }) => at)).toEqual([T, T + 1, T + 1, T + 3]);
    expect(notes.join()).toContain('shifted to follow');
  });

  test('a real recording with TAG blocks of stations keeps its times and sources', async () => {
    const path = recorded('ais/libais_tagblock.nmea');
    if (!path) return;
    const { lines } = await read(path);
    expect(lines[0]).toMatchObject({ at: 1_418_169_601, source: 'rORBCOMM008' });
    expect(lines[0]!.text).toMatch(/^!AIVDM,2,1,6,A,/);
  });
});

describe('the UTC in a line', () => {
  test('is read from RMC, ZDA, GGA, GNS and GLL, and from nothing else', () => {
    const day = Date.UTC(2018, 8, 7) / 1000;
    const time = 19 * 3600 + 39 * 60 + 13;
    // From recordings of real devices (recorded/quirks/hemi.log, boat-lake, sounder.log) and made to match.
    expect(utcOf('$GPZDA,193913.00,07,09,2018,00,00*63')).toEqual({ timeOfDay: time, date: day });
    expect(utcOf('$IIRMC,075941,A,4612.829,N,00610.244,E,00.0,000,220714,01,E,A*06')).toEqual({
      timeOfDay: 7 * 3600 + 59 * 60 + 41,
      date: Date.UTC(2014, 6, 22) / 1000,
    });
    expect(utcOf('$ECGLL,5119.881,N,00125.169,E,164326,A,D*52')).toEqual({ timeOfDay: 60_206 });
    expect(utcOf(withChecksum('GNGNS,193913.5,,,,,,,,,,'))).toEqual({ timeOfDay: time + 0.5 });
    expect(utcOf(gga(T))).toEqual({ timeOfDay: 12 * 3600 });
    for (const none of [depth, '', '$', '$GPRMC', '$GPRMC,,V,,,,,,,,,,N*53', '!AIVDM,1,1,,B,123456,0*13'])
      expect(utcOf(none)).toBeUndefined();
  });

  test('is found behind noise and in glued sentences', () => {
    expect(utcOf(`\xff\x80${depth}${gga(T)}`)).toEqual({ timeOfDay: 12 * 3600 });
    expect(utcOf(`${gga(T)}${depth}`)).toEqual({ timeOfDay: 12 * 3600 });
  });

  test('is not believed with a wrong checksum or wrong digits; a date that cannot be leaves the time', () => {
    expect(utcOf('$GPZDA,193913.00,07,09,2018,00,00*64')).toBeUndefined();
    for (const time of ['250000', '126000', '120061', '12000', '1200x0', '120000.x', '120000x', '-12000'])
      expect(utcOf(withChecksum(`GPGGA,${time},4612.829,N,00610.244,E,1`))).toBeUndefined();
    // Sent by a receiver after the week rollover of 2019 (recorded/quirks/april6_2019.log).
    expect(utcOf('$GPRMC,000231.099,A,4829.0005,N,00022.0015,E,0.15,212.28,2208-1,,,A*73')).toEqual({
      timeOfDay: 151.099,
    });
  });

  test('a time without date belongs to the day that brings it nearest', () => {
    const midnight = Date.UTC(2024, 5, 2) / 1000;
    expect(unixTime({ timeOfDay: 5 }, midnight - 3)).toBe(midnight + 5);
    expect(unixTime({ timeOfDay: 86_395 }, midnight + 3)).toBe(midnight - 5);
    expect(unixTime({ timeOfDay: 0 }, midnight)).toBe(midnight);
  });
});

describe('lines without TAG blocks', () => {
  /** Ten sentences a second, the first of them RMC. */
  const second = (at: number) => [rmc(at), ...new Array<string>(9).fill(depth)];
  const night = (from: number, seconds: number) =>
    Array.from({ length: seconds }, (_, i) => second(from + i)).flat();

  test('follow UTC, and the pace of the lines between', async () => {
    const { lines, notes } = await read(file(night(T, 60)));
    expect(notes).toEqual([]);
    for (let i = 0; i < 60; i++) expect(lines[10 * i]!.at).toBe(T + i);
    expect(lines[595]!.at).toBeCloseTo(T + 59.5, 2);
    expect(lines[0]!.source).toBe('file');
  });

  test('before the first UTC they have its time, looked ahead', async () => {
    const { lines } = await read(file([...new Array<string>(900).fill(depth), ...night(T, 3)]));
    expect(new Set(lines.slice(0, 901).map(({ at }) => at))).toEqual(new Set([T]));
  });

  test('a time without a date waits for the first date in the file, across midnight too', async () => {
    const midnight = Date.UTC(2024, 5, 2) / 1000;
    const path = file([gga(midnight - 2), gga(midnight - 1), rmc(midnight), gga(midnight + 1)]);
    expect(await times(path)).toEqual([midnight - 2, midnight - 1, midnight, midnight + 1]);
  });

  test('midnight without any date adds a day; the day is told to be 1970', async () => {
    const { lines, notes } = await read(file([86_398, 86_399, 0, 1].map((at) => gga(at))));
    expect(lines.map(({ at }) => at)).toEqual([86_398, 86_399, 86_400, 86_401]);
    expect(notes.join()).toContain('no sentence tells the date');
  });

  test('no time at all: a second a line from 0, and told; a time that comes after all is taken', async () => {
    const { lines, notes } = await read(file([depth, wind, depth]));
    expect(lines.map(({ at }) => at)).toEqual([0, 1, 2]);
    expect(notes.join()).toContain('a second is taken for each line');
    const late = await times(file([...new Array<string>(50_010).fill(depth), rmc(T), depth]));
    expect(late.slice(50_008)).toEqual([50_008, 50_009, T, T]);
  });

  test('UTC that stands still while sentences come on: time is reckoned from their pace, and told', async () => {
    const frozen = Array.from({ length: 600 }, () => second(T + 59)).flat();
    const { lines, notes } = await read(file([...night(T, 60), ...frozen, ...night(T + 670, 20)]));
    const last = lines[600 + 5999]!.at;
    expect(last - (T + 59)).toBeGreaterThan(590);
    expect(last - (T + 59)).toBeLessThan(601);
    expect(lines.at(-10)!.at).toBe(T + 689);
    expect(notes.join()).toMatch(/UTC stands still for up to (59|60)\d s/);
  });

  test('reckoned too far ahead, the timeline waits a little each second until UTC has caught up', async () => {
    const frozen = Array.from({ length: 110 }, () => second(T + 59)).flat();
    const { lines } = await read(file([...night(T, 60), ...frozen, ...night(T + 160, 120)]));
    const ahead = (i: number) => lines[1700 + 10 * i]!.at - (T + 160 + i);
    expect(ahead(0)).toBeGreaterThan(5);
    for (let i = 1; i < 120; i++) expect(ahead(i)).toBeLessThanOrEqual(ahead(i - 1) + 1e-9);
    expect(ahead(119)).toBe(0);
  });

  test('UTC that goes back adds nothing until it advances again, then its advance; told', async () => {
    const back = T + 60 - 3600;
    const { lines, notes } = await read(file([...night(T, 60), ...night(back, 60)]));
    expect(lines.at(-10)!.at - lines[599]!.at).toBeCloseTo(59, 0);
    expect(notes.join()).toContain('UTC goes back 1 times');
  });

  test('one damaged time, back or ahead, moves nothing', async () => {
    for (const wrong of [T - 5000, T + 5000]) {
      const lines = night(T, 60);
      lines[300] = rmc(wrong);
      const at = await times(file(lines));
      for (let i = 0; i < 60; i++) {
        expect(at[10 * i]).toBeGreaterThanOrEqual(T + i - 1);
        expect(at[10 * i]).toBeLessThan(T + i + 1);
      }
    }
  });

  test('a gap in the recording is a gap on the timeline, exactly at its place', async () => {
    const at = await times(file([...night(T, 30), ...night(T + 7200, 30)]));
    expect(at[299]).toBeLessThan(T + 31);
    expect(at[300]).toBe(T + 7200);
    expect(await times(file([rmc(T), rmc(T + 600), rmc(T + 1200)]))).toEqual([T, T + 600, T + 1200]);
  });

  test('a later file that is of an earlier day goes on where the first ended', async () => {
    const at = await times(file(night(T, 30)), file(night(T - 86_400, 30)));
    expect(at.at(-10)! - at[299]!).toBeCloseTo(29, 0);
  });

  test('two sentences an epoch of 30 s have the same time (recording of a fixed station)', async () => {
    const path = recorded('static/esbjerg-2020-06-25-gps-l1.nmea.gz');
    if (!path) return;
    const { lines } = await read(path);
    for (const { at, text } of lines) expect(at).toBe(unixTime(utcOf(text)!, at));
    expect(lines.at(-1)!.at - lines[0]!.at).toBe(86_400 - 30);
  });

  test('the real 38 minutes of a frozen UTC pass on the timeline within 2 %, and every line is there', async () => {
    const path = recorded('boat-lake/lake-2014-06-27.nmea.gz');
    if (!path) return;
    const { lines, notes } = await read(path);
    const raw = gunzipSync(readFileSync(path)).toString('latin1').split('\n');
    expect(lines.map(({ text }) => text)).toEqual(
      raw.filter((line) => line.trim() !== '').map((line) => line.replace(/\r$/, '')),
    );
    const frozen = lines.filter(({ text }) => /^\$IIRMC,151216,/.test(text));
    expect(frozen).toHaveLength(2035);
    const next = lines.find(({ at, text }) => at > frozen.at(-1)!.at && text.startsWith('$IIRMC'))!;
    const real = unixTime(utcOf(next.text)!, next.at) - frozen[0]!.at;
    expect(real).toBeGreaterThan(2200);
    expect(frozen.at(-1)!.at - frozen[0]!.at).toBeGreaterThan(0.98 * real);
    expect(next.at).toBe(unixTime(utcOf(next.text)!, next.at));
    expect(notes.join()).toMatch(/UTC stands still for up to 2\d{3} s/);
    // Wherever UTC advances, the timeline is with it again.
    const end = lines.findLast(({ text }) => text.startsWith('$IIRMC'))!;
    expect(Math.abs(end.at - unixTime(utcOf(end.text)!, end.at))).toBeLessThan(2);
  });

  test('a real clock that went back 39 times: never back here, and the end is where its UTC is', async () => {
    const path = recorded('damaged/clock-back-2014-07-22.nmea.gz');
    if (!path) return;
    const { lines, notes } = await read(path);
    expect(notes.join()).toContain('goes back 39 times');
    const gap = Math.max(...lines.slice(1).map(({ at }, i) => at - lines[i]!.at));
    expect(gap).toBeLessThan(900);
    const end = lines.findLast(({ text }) => text.startsWith('$IIRMC'))!;
    expect(Math.abs(end.at - unixTime(utcOf(end.text)!, end.at))).toBeLessThan(150);
  });

  test.each([
    // Seconds between two UTCs: 2, 1 with gaps of up to 4, and 1.
    ['boat-lake/lake-2008-07-10.nmea.gz', 2.1],
    ['boat-lake/lake-2014-08-19.nmea.gz', 3.2],
    ['boat-ijsselmeer-2018/ijsselmeer.nmea', 1.1],
  ])('%s: the timeline keeps within %d s of every UTC', async (name, limit) => {
    const path = recorded(name);
    if (!path) return;
    let worst = 0;
    for (const { at, text } of (await read(path)).lines) {
      const utc = utcOf(text);
      if (utc) worst = Math.max(worst, Math.abs(at - unixTime(utc, at)));
    }
    expect(worst).toBeLessThan(limit);
  });

  test('the cold boot of a rolled-over receiver does not throw the timeline years ahead', async () => {
    const path = recorded('quirks/gp-320fw-2019-04-07-coldboot.log');
    if (!path) return;
    const { lines } = await read(path);
    expect(lines.at(-1)!.at - lines[0]!.at).toBeLessThan(600);
  });
});
