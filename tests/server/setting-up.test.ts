import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { loadConfig } from '../../server/config/load.ts';
import { openConfigFile } from '../../server/config/open.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon } from '../../server/daemon.ts';
import { configAnswer, configChanged } from '../../shared/messages/config.ts';
import { api, daemonAtHand, emptyFolder } from './daemonAtHand.ts';

const TEXT = '# ours\nboat:\n  length: 12\n  draft: 1.9 # measured\n  antenna: { aftOfRoller: 9 }\n';
const daemons: Daemon[] = [];
afterEach(async () => {
  for (const daemon of daemons.splice(0)) await daemon.stop('test over');
});

async function boat(withFile: boolean) {
  const data = emptyFolder();
  const file = join(data, 'hawse.yaml');
  writeFileSync(file, TEXT);
  const config = loadConfig(file);
  const daemon = await daemonAtHand({
    settings: toSettings(config),
    data,
    feeder: () => ({ stop: async () => {} }),
    ...(withFile ? { config: openConfigFile(file, config) } : {}),
  });
  daemons.push(daemon);
  return { daemon, file };
}

test('a change of hawse.yaml is taken over by the running watch at once, and journalled with its author', async () => {
  const { daemon, file } = await boat(true);
  const asked = await api(daemon, '/config', 'PATCH', { set: { 'boat.draft': '2.2' }, try: true });
  const tried = configChanged.parse(await asked.json());
  expect(tried).toMatchObject({
    done: false,
    changes: [{ key: 'boat.draft', from: '1.9', to: '2.2', when: 'at-once' }],
  });
  expect(daemon.keeper.engine().settings.boat.draft).toBe(1.9);

  const answer = await api(daemon, '/config', 'PATCH', { set: { 'boat.draft': '2.2' } });
  expect(configChanged.parse(await answer.json()).done).toBe(true);
  expect(daemon.keeper.engine().settings.boat.draft).toBe(2.2);
  expect(readFileSync(file, 'utf8')).toBe(TEXT.replace('1.9', '2.2'));
  expect(daemon.keeper.engine().notes.at(-1)?.text).toMatch(
    /changed hawse\.yaml: boat\.draft 1\.9 → 2\.2\.$/,
  );

  const told = configAnswer.parse(await (await api(daemon, '/config')).json());
  expect(told.fields.find(({ key }) => key === 'boat.draft')).toEqual({
    key: 'boat.draft',
    value: 2.2,
    written: '2.2',
  });
  expect(told.fitting.antennaAft).toMatchObject({ told: 9, unknown: expect.stringMatching(/hour/) });
});

test.each([
  ['a figure that cannot be', { set: { 'boat.draft': 99 } }, 400, /boat\.draft: 99 is not/],
  ['a key that only a hand changes', { set: { 'raise.outputs': 'x' } }, 400, /by hand/],
  ['nothing', { set: {} }, 400, /1 to 40 keys/],
  ['an unknown member', { set: { 'boat.draft': 2 }, force: true }, 400, /force/],
] as const)('refused in words: %s', async (_name, body, status, words) => {
  const { daemon, file } = await boat(true);
  const answer = await api(daemon, '/config', 'PATCH', body);
  expect(answer.status).toBe(status);
  expect(await answer.text()).toMatch(words);
  expect(readFileSync(file, 'utf8')).toBe(TEXT);
});

test('without a file the figures are told, and a change is refused in words', async () => {
  const { daemon } = await boat(false);
  const told = configAnswer.parse(await (await api(daemon, '/config')).json());
  expect(told.why).toMatch(/no hawse\.yaml/);
  expect(told.fields.find(({ key }) => key === 'boat.draft')).toEqual({ key: 'boat.draft', value: 1.9 });
  const answer = await api(daemon, '/config', 'PATCH', { set: { 'boat.draft': 2 } });
  expect(answer.status).toBe(409);
  expect(await answer.text()).toMatch(/rehearsal/);
});
