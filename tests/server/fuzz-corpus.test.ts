import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type EngineState, step } from '../../shared/engine.ts';
import type { Input } from '../../shared/input.ts';
import { apiCampaign, checkAlive, faultOf } from '../fuzz/api.ts';
import { type Ask, type Fuzzed, startFuzzed } from '../fuzz/daemon.ts';
import { configCampaign, recordedCampaign, tryConfig, tryRecorded } from '../fuzz/files.ts';
import { createChance } from '../fuzz/random.ts';
import { checkEngine, decodeCampaign, freshEngine, sentenceCampaign, tryLine } from '../fuzz/sentences.ts';
import { socketCampaign } from '../fuzz/sockets.ts';

/** Whatever a campaign (`npm run fuzz`) has found once must never come again. */
const CORPUS = 'tests/fuzz/corpus';

function corpus<T>(kind: string): [string, T][] {
  const folder = join(CORPUS, kind);
  if (!existsSync(folder)) return [];
  return readdirSync(folder).map((name) => {
    const { reproduce } = JSON.parse(readFileSync(join(folder, name), 'utf8')) as { reproduce: T };
    return [name, reproduce];
  });
}

describe('finds of the campaigns', () => {
  test('there are some, of every kind that is told apart here', () => {
    expect(
      readdirSync(CORPUS).every((kind) => ['decode', 'engine', 'config', 'recorded', 'api'].includes(kind)),
    ).toBe(true);
    expect(corpus('config').length).toBeGreaterThan(0);
  });

  test.each(corpus<string>('config'))('config: %s', (_name, text) => {
    expect(['taken', 'refused']).toContain(tryConfig(text));
  });

  for (const [name, line] of corpus<string>('decode'))
    test(`line: ${name}`, () => {
      for (const strict of [true, false]) expect(tryLine(line, strict)).toMatch(/./);
    });

  for (const [name, { state, inputs }] of corpus<{ state?: EngineState; inputs: Input[] }>('engine'))
    test(`engine: ${name}`, () => {
      let engine = state ?? freshEngine();
      for (const input of inputs) engine = step(engine, input).state;
      checkEngine(engine, inputs.at(-1)!.at);
    });

  for (const [name, { base64, anchorage }] of corpus<{ base64: string; anchorage: string }>('recorded'))
    test(`recorded file: ${name}`, async () => {
      const folder = mkdtempSync(join(tmpdir(), 'hawse-corpus-'));
      writeFileSync(join(folder, 'log'), Buffer.from(base64, 'base64'));
      writeFileSync(join(folder, 'anchorage.json'), anchorage);
      await tryRecorded(join(folder, 'log'), join(folder, 'anchorage.json'));
      rmSync(folder, { recursive: true });
    });

  describe('calls', () => {
    let daemon: Fuzzed;
    beforeAll(async () => {
      daemon = await startFuzzed(createChance(1), false);
    });
    afterAll(() => daemon.stop());
    for (const [name, asked] of corpus<Ask>('api'))
      test(name, async () => {
        const { status, type, text } = await daemon.ask(asked);
        expect(faultOf(status, type, text)).toBeUndefined();
      });
    test('and the watch goes on', async () => {
      const found: string[] = [];
      await checkAlive(daemon, (what) => found.push(what));
      expect(found).toEqual([]);
    });
  });
});

describe('a taste of each campaign', () => {
  const SEED = 11;
  test.each([
    ['lines', () => decodeCampaign(50_000, SEED)],
    ['sentences', () => sentenceCampaign(20_000, SEED)],
    ['config files', () => configCampaign(200, SEED)],
    ['recorded files', () => recordedCampaign(40, SEED)],
    ['calls', () => apiCampaign(600, SEED, false)],
    ['calls over TLS', () => apiCampaign(100, SEED, true)],
    ['frames', () => socketCampaign(600, SEED, false)],
    ['frames over TLS', () => socketCampaign(100, SEED, true)],
  ] as const)('%s: nothing is found', async (_name, run) => {
    const { finds, outcomes } = await run();
    expect(finds).toEqual([]);
    expect(Object.keys(outcomes).length).toBeGreaterThan(1);
  });
});
