import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type KeyRing, openKeyRing } from '../../../server/access/keys.ts';
import { openAccess } from '../../../server/access/open.ts';

let data: string;
let notes: string[];
let clock: number;
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'hawse-keys-'));
  notes = [];
  clock = 1_760_000_000;
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

const open = (): KeyRing => openKeyRing(data, { now: () => clock, note: (text) => notes.push(text) });
const file = () => readFileSync(join(data, 'keys.json'), 'utf8');

describe('the file of keys', () => {
  test('brings every key back, holds none of them, and nobody else may read it', () => {
    const made = open().add('Skipper', 'command');
    expect(made.key).toMatch(/^[\w-]{32}$/);
    expect(open().find(made.key)).toMatchObject({ id: made.view.id, name: 'Skipper', role: 'command' });
    expect(file()).not.toContain(made.key);
    expect(statSync(join(data, 'keys.json')).mode & 0o777).toBe(0o600);
    expect(open().find(`${made.key} `)).toBeUndefined();
    expect(open().find('')).toBeUndefined();
  });

  test('a key that was taken away stays away over a restart', () => {
    const ring = open();
    const { key, view } = ring.add('Lost phone', 'command');
    ring.takeAway(view.id);
    expect([ring.find(key), open().find(key)]).toEqual([undefined, undefined]);
  });

  test('no two have one name: the log says who', () => {
    const ring = open();
    for (const name of ['phone', 'Phone', 'phone']) ring.add(name, 'look');
    expect(ring.list().map(({ name }) => name)).toEqual(['phone', 'Phone 2', 'phone 3']);
  });

  test('when it was last used is kept to the hour, whichever way the clock goes', () => {
    const { key } = open().add('Skipper', 'command');
    const ring = open();
    ring.find(key);
    clock += 1800;
    ring.find(key);
    expect(open().list()[0]!.lastUsed).toBe(1_760_000_000);
    clock -= 86_400;
    ring.find(key);
    expect(open().list()[0]!.lastUsed).toBe(1_760_000_000 + 1800 - 86_400);
  });

  test('the one key of an earlier hawse is taken over, once, and its plain text goes', () => {
    writeFileSync(join(data, 'key'), 'old-key\n');
    const ring = open();
    expect(ring.find('old-key')).toMatchObject({ name: "boat's key", role: 'command' });
    expect(readdirSync(data)).toEqual(['keys.json']);
    expect(notes.join()).toContain("boat's key");
    expect(open().list()).toHaveLength(1);
  });

  test('a key that cannot be kept is not given', () => {
    rmSync(data, { recursive: true });
    writeFileSync(data, 'a file in the place of the folder');
    const ring = open();
    expect(() => ring.add('Skipper', 'command')).toThrow();
    expect(ring.list()).toEqual([]);
    expect(notes).not.toEqual([]);
  });

  test('a damaged file is put aside and told; this computer still commands', () => {
    const { key } = open().add('Skipper', 'command');
    const whole = file();
    writeFileSync(join(data, 'keys.json'), whole.slice(0, whole.length / 2));
    const ring = open();
    expect([ring.find(key), ring.list()]).toEqual([undefined, []]);
    expect(notes.join()).toMatch(/damaged.*pair the phones anew/);
    expect(readdirSync(data).some((name) => name.startsWith('keys.json.damaged-'))).toBe(true);
    ring.add('Skipper', 'command');
    expect(open().list()).toHaveLength(1);
  });

  test('1,000 damaged files: it opens every time, and no key that was not in it', () => {
    const ring = open();
    const { key } = ring.add('Skipper', 'command');
    const whole = Buffer.from(file());
    const change = fc.tuple(fc.nat(whole.length - 1), fc.nat(255), fc.nat(whole.length));
    for (const [at, byte, length] of fc.sample(change, { numRuns: 1000, seed: 7 })) {
      const bytes = Buffer.from(whole.subarray(0, Math.max(at + 1, length)));
      bytes[at] = byte;
      writeFileSync(join(data, 'keys.json'), bytes);
      const read = open();
      for (const wrong of ['', 'undefined', '__proto__', key.slice(1)])
        expect(read.find(wrong)).toBeUndefined();
      expect(read.list().length).toBeLessThanOrEqual(1);
    }
  });
});

describe('at the start', () => {
  const start = (commands: boolean) =>
    openAccess(data, { now: () => clock, note: () => {} }).openAtStart(commands);

  test('a code is open until a phone that may command is paired', () => {
    expect(start(true)).toMatchObject({ role: 'command', seconds: 600 });
    open().add('Guest', 'look');
    expect(start(true)).toBeDefined();
    open().add('Skipper', 'command');
    expect(start(true)).toBeUndefined();
  });

  test('where this computer may not command, every start opens one: else nobody could get in again', () => {
    open().add('Skipper', 'command');
    expect(start(false)).toBeDefined();
  });

  test('the shared key of an earlier hawse is no paired phone', () => {
    writeFileSync(join(data, 'key'), 'old-key\n');
    expect(start(true)).toBeDefined();
  });
});
