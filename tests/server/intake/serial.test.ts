import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { findRate, hasRightChecksum, RATES } from '../../../server/intake/baud.ts';
import type { Intake } from '../../../server/intake/input.ts';
import { createSerial, type SerialOptions } from '../../../server/intake/serial.ts';
import type { OpenPort } from '../../../server/intake/serial-port.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { type Heard, listener } from './heard.ts';
import { ptyPair } from './pty.ts';

const ends: (() => Promise<unknown> | undefined)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});
const started = (options: Partial<SerialOptions> & { serial: string }): { heard: Heard; serial: Intake } => {
  const heard = listener();
  const serial = createSerial({ id: 'serial1', baud: 4800, retry: 50, ...options }, heard);
  serial.start();
  ends.push(() => serial.stop());
  return { heard, serial };
};
const depth = (n: number) => withChecksum(`SDDPT,${n}.0,0.4`);

describe('a checksum in a line', () => {
  test('is right or not, whatever stands before the last sentence', () => {
    expect(hasRightChecksum('$SDDPT,5.3,0.4,*79')).toBe(true);
    expect(hasRightChecksum('\xff\x80$GP$SDDPT,5.3,0.4,*79 ')).toBe(true);
    for (const wrong of ['$SDDPT,5.3,0.4,*78', '$SDDPT,5.3,0.4,', 'SDDPT,5.3,0.4,*79', '', '*00'])
      expect(hasRightChecksum(wrong)).toBe(false);
  });
});

describe('the search for the baud rate', () => {
  const probing = (speech: Record<number, string[]>) => {
    const tried: number[] = [];
    const find = (first?: number) =>
      findRate(async (rate, judge) => {
        tried.push(rate);
        for (const line of speech[rate] ?? ['\xfe\xfd']) if (judge(line)) break;
        return true;
      }, first);
    return { tried, find };
  };

  test('takes the rate with the most right sentences, not the first with one', async () => {
    const { tried, find } = probing({
      4800: [depth(1), '\xfe', '\xfe'],
      9600: [depth(1), depth(2), depth(3)],
    });
    expect(await find()).toBe(9600);
    expect(tried).toEqual([...RATES]);
  });

  test('is settled early by several right sentences, and begins with the rate it knows', async () => {
    const { tried, find } = probing({ 57600: [1, 2, 3, 4, 5].map(depth) });
    expect(await find(57_600)).toBe(57_600);
    expect(tried).toEqual([57_600]);
  });

  test('finds nothing in silence and noise', async () => {
    expect(await probing({}).find()).toBeUndefined();
  });
});

/** A port whose line speaks at one rate; at others it gives noise. */
function fakePort(speed: { baud: number }) {
  let rate = 0;
  let take: (chunk: Buffer) => void = () => undefined;
  let gone: (what: string) => void = () => undefined;
  let n = 0;
  const speak = setInterval(() => {
    const noise = Buffer.alloc(200, 0xf8);
    take(rate === speed.baud ? Buffer.from(`${depth(n++)}\r\n`) : noise);
  }, 2);
  ends.push(async () => clearInterval(speak));
  const port: OpenPort = {
    ondata: (taker) => {
      take = taker;
    },
    onclose: (taker) => {
      gone = taker;
    },
    setRate: async (baud) => {
      rate = baud;
    },
    close: async () => undefined,
  };
  return {
    rate: () => rate,
    open: async (_path: string, baud: number) => {
      rate = baud;
      return port;
    },
    vanish: () => gone('/dev/fake was unplugged'),
  };
}

describe('a serial port with baud auto', () => {
  test('the link is up when the rate is found; noise of wrong rates is not passed on', async () => {
    const fake = fakePort({ baud: 38_400 });
    const { heard } = started({ serial: '/dev/fake', baud: 'auto', dwell: 60, open: fake.open });
    await heard.until(({ links, lines }) => links.at(-1)?.up === true && lines.length > 20);
    expect(heard.links).toEqual([
      {
        id: 'serial1',
        up: false,
        detail: `/dev/fake is open; looking for its baud rate (${RATES.join(', ')}): no sentence with a right checksum yet`,
      },
      { id: 'serial1', up: true, detail: '/dev/fake is open at 38400 baud, found by listening' },
    ]);
    expect(heard.texts().filter((text) => !hasRightChecksum(text))).toEqual([]);
    expect(heard.discarded).toBe(0);
  });

  test('an instrument that changes its rate is found again', async () => {
    const speed = { baud: 38_400 };
    const fake = fakePort(speed);
    const { heard } = started({ serial: '/dev/fake', baud: 'auto', dwell: 60, open: fake.open });
    await heard.until(({ links }) => links.at(-1)?.up === true);
    speed.baud = 9600;
    await heard.until(({ links }) => links.at(-1)!.detail.includes('9600 baud, found'));
    expect(heard.links.map(({ up }) => up)).toEqual([false, true, false, true]);
    expect(fake.rate()).toBe(9600);
  });

  test('a port that vanishes while its rate is sought is told, and tried again', async () => {
    const fake = fakePort({ baud: 1 });
    const { heard } = started({ serial: '/dev/fake', baud: 'auto', dwell: 30, open: fake.open });
    await heard.until(({ links }) => links.length === 1);
    fake.vanish();
    await heard.until(({ links }) => links.length >= 3);
    expect(heard.links[1]!.detail).toBe('/dev/fake was unplugged');
    expect(heard.links[2]!.detail).toContain('looking for its baud rate');
  });
});

describe('a real serial port (pseudo terminal)', () => {
  const writer = async (path: string): Promise<FileHandle> => {
    const handle = await open(path, 'w');
    ends.push(() => handle.close().catch(() => undefined));
    return handle;
  };

  test('sentences come through; pulled out and plugged in again it comes back by itself', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'hawse-pty-'));
    const first = await ptyPair(folder);
    if (!first) return;
    ends.push(() => first.close());
    const { heard, serial } = started({ serial: first.device });
    await heard.until(({ links }) => links.length === 1);
    expect(heard.links[0]).toEqual({
      id: 'serial1',
      up: true,
      detail: `${first.device} is open at 4800 baud`,
    });
    const end = await writer(first.other);
    await end.write('$SDDPT,5.3,0.4,*79\r\n$SDM');
    await end.write('TW,,C*1B\r\n\xff\x00noise\r\n', null, 'latin1');
    await heard.until(({ lines }) => lines.length === 3);
    expect(heard.texts()).toEqual(['$SDDPT,5.3,0.4,*79', '$SDMTW,,C*1B', '\xff\x00noise']);

    await first.close();
    await heard.until(({ links }) => links.length >= 2);
    expect(heard.links[1]).toEqual({ id: 'serial1', up: false, detail: `${first.device} was unplugged` });
    await heard.until(({ links }) => links.length >= 3);
    expect(heard.links[2]!.detail).toBe(`there is no ${first.device}: is it plugged in?`);

    mkdirSync(folder);
    const second = (await ptyPair(folder))!;
    ends.push(() => second.close());
    await heard.until(({ links }) => links.at(-1)!.up);
    await (await writer(second.other)).write(`${depth(9)}\r\n`);
    await heard.until(({ texts }) => texts().includes(depth(9)));
    await serial.stop();
  });

  test('baud auto really turns the port from rate to rate', async () => {
    const pair = await ptyPair();
    if (!pair) return;
    ends.push(() => pair.close());
    const { heard } = started({ serial: pair.device, baud: 'auto', dwell: 250 });
    const end = await writer(pair.other);
    const speed = () => Number(execFileSync('stty', ['-F', pair.device, 'speed'], { encoding: 'utf8' }));
    let n = 0;
    const speak = setInterval(
      () => void end.write(speed() === 9600 ? `${depth(n++)}\r\n` : '\xf8\x80\xe1\r\n', null, 'latin1'),
      20,
    );
    ends.push(async () => clearInterval(speak));
    await heard.until(({ links }) => links.at(-1)?.up === true);
    clearInterval(speak);
    expect(heard.links.at(-1)!.detail).toBe(`${pair.device} is open at 9600 baud, found by listening`);
    expect(speed()).toBe(9600);
  });

  test('a port that another program holds says so', async () => {
    const pair = await ptyPair();
    if (!pair) return;
    ends.push(() => pair.close());
    const one = started({ serial: pair.device });
    await one.heard.until(({ links }) => links.length === 1);
    const two = started({ serial: pair.device });
    await two.heard.until(({ links }) => links.length === 1);
    expect(two.heard.links[0]).toEqual({
      id: 'serial1',
      up: false,
      detail: `${pair.device} is in use by another program`,
    });
  });
});
