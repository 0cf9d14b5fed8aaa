import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { loadAnchorage } from '../../server/config/anchorage.ts';
import { commonBoat } from '../../server/config/defaults.ts';
import { parseConfig } from '../../server/config/load.ts';
import { nameInstruments, toSettings } from '../../server/config/settings.ts';
import { replay } from '../../server/replay.ts';
import { badNumbers } from '../shared/sentences/read.ts';
import { SEEDS } from '../shared/sentences/seeds.ts';
import { type Chance, createChance, mangle } from './random.ts';
import { type Campaign, createCampaign } from './report.ts';

const YAML_SPLINTERS = [
  '0',
  '-1',
  '1e999',
  '.nan',
  '.inf',
  '~',
  'null',
  'true',
  '{}',
  '[]',
  '[[',
  '- ',
  ': ',
  '\n',
  '\t',
  '  ',
  '"',
  "'",
  '&a',
  '*a',
  '<<: *a',
  '!!binary x',
  '!!js/function x',
  '__proto__: 1',
  'constructor: 1',
  '12 ft',
  '3 parsec',
  '#',
  '%YAML 1.1\n',
  '---\n',
  '...\n',
  '\u0000',
  '€',
  '99999999999999999999',
  '0x10',
  '1_000',
  '2001-01-01',
  '|',
  '>',
  '?',
];

/** What a configuration that is taken becomes must be finite; what is not taken is told in words with its place. */
export function tryConfig(text: string): 'taken' | 'refused' {
  try {
    const config = parseConfig(text, 'hawse.yaml');
    nameInstruments(config.instruments);
    const settings = toSettings(config);
    const bad = badNumbers(settings);
    if (bad.length > 0) throw new Error(`bad numbers in the settings: ${bad.slice(0, 3)}`);
    return 'taken';
  } catch (error) {
    if ((error as Error).name !== 'ConfigError') throw error;
    if ((error as Error).message.trim() === '') throw new Error('a refusal without words');
    return 'refused';
  }
}

export function configCampaign(count: number, seed: number): Campaign {
  const campaign = createCampaign('config files', 'config');
  const chance = createChance(seed);
  const example = readFileSync('server/hawse.example.yaml', 'utf8').replace(/^# {0,2}(?=\w+:)/gm, '');
  const lines = example.split('\n');
  for (let i = 0; i < count; i++) {
    let text = chance.oneIn(3) ? withLinesMixed(lines, chance) : example;
    for (let n = chance.below(4); n >= 0; n--) text = mangle(text, chance, YAML_SPLINTERS);
    if (chance.oneIn(20)) text = chance.bytes(chance.below(300)).toString('latin1');
    try {
      campaign.tried(tryConfig(text));
    } catch (error) {
      campaign.tried('found');
      campaign.found((error as Error).message, text);
    }
  }
  return campaign.done();
}

function withLinesMixed(lines: readonly string[], { below, pick }: Chance): string {
  const mixed = [...lines];
  for (let n = below(6); n >= 0; n--) mixed.splice(below(mixed.length), below(2), pick(lines));
  return mixed.join('\n');
}

const ANCHORAGE = JSON.stringify({
  boat: {
    hull: 'monohull',
    length: 12.8,
    beam: 4.1,
    draft: 1.9,
    roller: { height: 1.4 },
    antenna: { aftOfRoller: 9 },
  },
  cable: { veered: 42, massPerMetre: 2.3 },
  mark: { lat: -16.5, lon: 179.99, at: 1_700_000_000, sigma: 3 },
  circle: { radius: 52 },
  limits: { depthBelow: 2.5, windAbove: 15.4 },
});

/** Recorded files whole, cut, packed, packed and cut, and anchorage files beside them. */
export async function recordedCampaign(count: number, seed: number): Promise<Campaign> {
  const campaign = createCampaign('recorded files', 'recorded');
  const chance = createChance(seed);
  const folder = mkdtempSync(join(tmpdir(), 'hawse-fuzz-'));
  const log = join(folder, 'log.nmea');
  const anchorage = join(folder, 'anchorage.json');
  for (let i = 0; i < count; i++) {
    const bytes = fileOf(chance);
    const described = mangle(ANCHORAGE, chance, ['0', '-', '1e999', 'null', '"', '{', '}', '[', ',']);
    try {
      writeFileSync(log, bytes);
      writeFileSync(anchorage, described);
      campaign.tried(await tryRecorded(log, anchorage));
    } catch (error) {
      campaign.tried('found');
      campaign.found((error as Error).message, { base64: bytes.toString('base64'), anchorage: described });
    }
  }
  rmSync(folder, { recursive: true });
  return campaign.done();
}

export async function tryRecorded(log: string, anchorageFile: string): Promise<string> {
  let anchorage: ReturnType<typeof loadAnchorage> | undefined;
  try {
    anchorage = loadAnchorage(anchorageFile);
  } catch (error) {
    if ((error as Error).name !== 'ConfigError') throw error;
  }
  const { summary } = await replay([log], toSettings(commonBoat()), anchorage, (event) => {
    const bad = badNumbers(event);
    if (bad.length > 0) throw new Error(`bad numbers in an event: ${bad}`);
  });
  const { sentences, rejected, lines, glued } = summary;
  const judged = sentences + rejected.checksum + rejected.malformed + rejected.unknown;
  if (judged !== lines + glued)
    throw new Error(`${judged} pieces judged of ${lines} lines and ${glued} glued`);
  return anchorage ? 'with a watch' : 'without a watch';
}

function fileOf(chance: Chance): Buffer {
  const { below, pick, oneIn } = chance;
  const end = pick(['\r\n', '\n', '\r', '\n\n', '']);
  let text = '';
  for (let n = below(60); n >= 0; n--) {
    const stamp = oneIn(3)
      ? `${pick(['\\c:1700000000*5B\\', `${1_700_000_000 + n}\t`, '2023-11-14T22:13:20Z '])}`
      : '';
    text +=
      stamp + (oneIn(3) ? mangle(pick(SEEDS), chance, ['\\', '\u0000', '*', ',', '$']) : pick(SEEDS)) + end;
  }
  let bytes: Buffer = Buffer.from(text, 'latin1');
  if (oneIn(4)) bytes = gzipSync(bytes);
  if (oneIn(4)) bytes = bytes.subarray(0, below(bytes.length + 1));
  if (oneIn(4) && bytes.length > 0) bytes[below(bytes.length)] = below(256);
  if (oneIn(30)) bytes = chance.bytes(below(5000));
  return bytes;
}
