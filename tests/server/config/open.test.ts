import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadConfig } from '../../../server/config/load.ts';
import { type ConfigFile, openConfigFile } from '../../../server/config/open.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { replaceText } from '../../../server/config/write.ts';

const TEXT = `# ours
boat:
  name: Test Petrel # invented
  length: 42 ft
  draft: 1.9
  antenna: { aftOfRoller: 34 ft }
cable:
  size: 10 mm
instruments:
  - udp: 10110
    id: gateway
server:
  port: 8274
`;
let folder: string;
let file: string;
let config: ConfigFile;
const text = () => readFileSync(file, 'utf8');
const settings = () => toSettings(loadConfig(file));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hawse-config-'));
  file = join(folder, 'hawse.yaml');
  writeFileSync(file, TEXT, { mode: 0o640 });
  config = openConfigFile(file, loadConfig(file));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const fieldOf = async (key: string) => (await config.told(settings())).fields.find((one) => one.key === key);

describe('the config file under a running watch', () => {
  test('it tells what holds in SI, what the file says as written, and what it does not set', async () => {
    expect(await fieldOf('boat.length')).toEqual({
      key: 'boat.length',
      value: 42 * 0.3048,
      written: '42 ft',
    });
    // The third of the length that is assumed is no figure of the file.
    expect((await fieldOf('boat.beam'))?.written).toBeUndefined();
    expect((await fieldOf('boat.beam'))?.value).toBeCloseTo((42 * 0.3048) / 3, 9);
    expect(await fieldOf('cable.veered')).toEqual({ key: 'cable.veered' });
    const told = await config.told(settings());
    expect(told).toMatchObject({ file, instruments: [{ id: 'gateway', says: 'udp 10110' }], waiting: [] });
    expect(told.why).toBeUndefined();
  });

  test('a try tells what a change would do and leaves the file alone', async () => {
    const { changes } = await config.change({ 'boat.draft': 2.1 }, true);
    expect(changes).toEqual([
      { key: 'boat.draft', from: '1.9', to: '2.1', does: expect.stringMatching(/keel/), when: 'at-once' },
    ]);
    expect(text()).toBe(TEXT);
    expect(readdirSync(folder)).toEqual(['hawse.yaml']);
  });

  test('a change is in the file, in the settings, and the text before it is kept', async () => {
    const { settings: taken } = await config.change({ 'boat.draft': '2.1', 'watch.depthBelow': 3 }, false);
    expect(text()).toBe(
      TEXT.replace('draft: 1.9', 'draft: 2.1').replace(/8274\n/, '8274\nwatch:\n  depthBelow: 3\n'),
    );
    expect(taken.boat.draft).toBe(2.1);
    expect(taken.limits.depthBelow).toBe(3);
    expect(settings()).toEqual(taken);
    expect(readFileSync(`${file}.before`, 'utf8')).toBe(TEXT);
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder).sort()).toEqual(['hawse.yaml', 'hawse.yaml.before']);
  });

  test('text without a unit is in the unit that stands there; with a unit, and a number in SI, it is as told', async () => {
    await config.change({ 'boat.antenna.aftOfRoller': '35' }, false);
    expect(text()).toContain('{ aftOfRoller: 35 ft }');
    await config.change({ 'boat.antenna.aftOfRoller': '10 m' }, false);
    expect(text()).toContain('{ aftOfRoller: 10 m }');
    await config.change({ 'boat.antenna.aftOfRoller': 9.5 }, false);
    expect(settings().boat.antenna.aftOfRoller).toBe(9.5);
  });

  test('what needs a start waits for it, and is told so', async () => {
    const { changes } = await config.change({ 'server.port': 9000, 'instruments.0.udp': 2000 }, false);
    expect(changes.map(({ key, when }) => `${key} ${when}`).sort()).toEqual([
      'instruments restart',
      'server.port restart',
    ]);
    const { waiting } = await config.told(settings());
    expect(waiting.map(({ key }) => key).sort()).toEqual(['instruments', 'server.port']);
    // Settings of the watch go by what is really open.
    const { settings: taken } = await config.change({ 'boat.draft': 2 }, false);
    expect(taken.checksumOptional).toEqual([]);
    expect((await config.told(settings())).waiting.map(({ key }) => key).sort()).toEqual([
      'instruments',
      'server.port',
    ]);
  });

  test('what a hand has edited meanwhile is told with the change that takes it over', async () => {
    writeFileSync(file, TEXT.replace('draft: 1.9', 'draft: 2.4 # measured'));
    expect((await config.told(settings())).waiting.map(({ key }) => key)).toEqual(['boat.draft']);
    const { changes } = await config.change({ 'boat.beam': 4 }, false);
    expect(changes.map(({ key }) => key)).toEqual(['boat.draft', 'boat.beam']);
    expect(text()).toContain('draft: 2.4 # measured');
  });

  test.each([
    ['too long', { 'boat.length': 900 }, /boat\.length: 900 is not a number of m from 4 to 40/],
    ['no number', { 'boat.draft': 'deep' }, /"deep" is not a number/],
    ['needed', { 'boat.draft': null }, /boat\.draft/],
    ['a size that no table has', { 'cable.size': '11 mm' }, /massPerMetre/],
    ['runs programs', { 'raise.outputs': 'x' }, /by hand/],
    ['opens doors', { 'server.access.look': 'anyone' }, /by hand/],
    ['no key', { 'boat.colour': 'red' }, /by hand/],
    ['a name of everything', { __proto__x: 1, constructor: 1 }, /by hand/],
  ] as const)('refused in words, nothing written: %s', async (_name, set, why) => {
    await expect(config.change(set, false)).rejects.toThrow(why);
    expect(text()).toBe(TEXT);
    expect(readdirSync(folder)).toEqual(['hawse.yaml']);
  });

  test('a file that is not legal any more is not written over', async () => {
    writeFileSync(file, TEXT.replace('draft: 1.9', 'draft: deep'));
    await expect(config.change({ 'boat.beam': 4 }, false)).rejects.toThrow(/hawse\.yaml:5: boat\.draft/);
    expect((await config.told(toSettings(loadConfigOf(TEXT)))).why).toMatch(/not legal now/);
    expect(text()).toContain('draft: deep');
  });

  test('a file that is gone is told', async () => {
    rmSync(file);
    await expect(config.change({ 'boat.beam': 4 }, false)).rejects.toThrow(/not there any more/);
    expect((await config.told(toSettings(loadConfigOf(TEXT)))).why).toMatch(/not there any more/);
  });

  test('a folder that may not be written is told', async (context) => {
    if (process.getuid?.() === 0) {
      console.log(
        'NOT TESTED: root may write everywhere, so nothing here shows a folder that may not be written.',
      );
      return context.skip();
    }
    chmodSync(folder, 0o555);
    await expect(config.change({ 'boat.beam': 4 }, false)).rejects.toThrow(/may not be written/);
    chmodSync(folder, 0o755);
  });

  test('a link stays a link, what it leads to is changed', async () => {
    const link = join(folder, 'link.yaml');
    symlinkSync(file, link);
    await replaceText(link, 'x: 1\n');
    expect(text()).toBe('x: 1\n');
    expect(readFileSync(link, 'utf8')).toBe('x: 1\n');
  });

  test('twenty changes at once all end up in the file', async () => {
    const sent = Array.from({ length: 20 }, (_, i) =>
      config.change(i % 2 ? { 'boat.draft': 1 + i / 10 } : { 'cable.length': 50 + i }, false),
    );
    await Promise.all(sent);
    expect(settings().boat.draft).toBe(2.9);
    expect(settings().cable.length).toBe(68);
  });
});

function loadConfigOf(whole: string) {
  const other = join(folder, 'other.yaml');
  writeFileSync(other, whole);
  return loadConfig(other);
}
