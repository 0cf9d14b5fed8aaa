import { existsSync, readFileSync } from 'node:fs';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { createEngine, type EngineState, step } from '../../shared/engine.ts';
import type { Input } from '../../shared/input.ts';
import { state as stateSchema } from '../../shared/messages/state.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { decode } from '../../shared/sentences/decode.ts';
import { splitLine } from '../../shared/sentences/split.ts';
import { snapshot } from '../../shared/snapshot.ts';
import { badNumbers } from '../shared/sentences/read.ts';
import { SEEDS, SPLINTERS } from '../shared/sentences/seeds.ts';
import { type Chance, createChance, mangle } from './random.ts';
import { type Campaign, createCampaign } from './report.ts';

/** Mutations through decode and engine; each engine lives through a night of so many. */
const NIGHT = 20_000;
const LOOK_EVERY = 500;
/** The state of an engine that has heard nothing but noise for a night must not have grown without end, bytes of JSON. */
const LARGEST_STATE = 4_000_000;
const RECORDED = ['boat-ijsselmeer-2018/ijsselmeer.nmea'];

function recordedSeeds(): string[] {
  const seeds = RECORDED.flatMap((name) => {
    const path = `../shared/recorded/${name}`;
    if (existsSync(path)) return readFileSync(path, 'latin1').split(/\r?\n/).filter(Boolean);
    console.log(`NOT USED: ${path} is absent`);
    return [];
  });
  return [...new Set(seeds)].slice(0, 3000);
}

/** Throws when a step breaks an invariant: what a person is told is whole, finite and bounded. */
export function checkEngine(engine: EngineState, at: number): void {
  const bad = badNumbers(engine);
  if (bad.length > 0) throw new Error(`bad numbers in the state: ${bad.slice(0, 3)}`);
  const told = { ...snapshot(engine, at), pages: [] };
  const worse = badNumbers(told);
  if (worse.length > 0) throw new Error(`bad numbers on the pages: ${worse.slice(0, 3)}`);
  const checked = stateSchema.safeParse(JSON.parse(JSON.stringify(told)));
  if (!checked.success)
    throw new Error(
      `the state is not as documented: ${checked.error.issues[0]!.path.join('.')}: ${checked.error.issues[0]!.message}`,
    );
}

export const freshEngine = (): EngineState =>
  createEngine({ ...toSettings(commonBoat()), checksumOptional: ['udp2'], lieEvery: 60 });

/** Makes damaged lines; three quarters of them have a right checksum again, as loggers and multiplexers give them. */
function createLines(chance: Chance): () => string {
  const { below, pick, oneIn } = chance;
  const seeds = [...SEEDS, ...recordedSeeds()];

  /** One value of a sentence put in another's place, which keeps the form and breaks the sense. */
  function swapField(line: string): string {
    const fields = line.split(',');
    const other = pick(seeds).split(',');
    fields[below(fields.length)] = oneIn(3) ? pick(SPLINTERS) : pick(other);
    return fields.join(',');
  }

  return () => {
    if (oneIn(20)) return chance.bytes(below(200)).toString('latin1');
    let text = oneIn(2) ? swapField(pick(seeds)) : mangle(pick(seeds), chance, SPLINTERS);
    while (oneIn(3)) text = oneIn(2) ? swapField(text) : mangle(text, chance, SPLINTERS);
    const star = text.lastIndexOf('*');
    if (!oneIn(4)) text = withChecksum(star < 0 ? text : text.slice(0, star));
    return oneIn(30) ? text + pick(seeds) : text;
  };
}

/** Lines through the decoder alone: ten times as many in the same time. */
export function decodeCampaign(count: number, seed: number): Campaign {
  const campaign = createCampaign('sentences, decoded', 'decode');
  const chance = createChance(seed);
  const line = createLines(chance);
  for (let i = 0; i < count; i++) {
    const text = line();
    try {
      campaign.tried(tryLine(text, !chance.oneIn(4)));
    } catch (error) {
      campaign.tried('found');
      campaign.found((error as Error).message, text);
    }
  }
  return campaign.done();
}

/** Throws when a line is not judged piece by piece, or a piece gives what is no number. */
export function tryLine(text: string, requireChecksum: boolean): string {
  const pieces = splitLine(text);
  if (pieces.length === 0 && text.trim() !== '') throw new Error('no piece');
  let outcome = 'blank';
  for (const piece of pieces) {
    const decoded = decode(piece, { requireChecksum });
    outcome = decoded.ok ? 'sentence' : decoded.reason;
    if (!decoded.ok) continue;
    for (const observation of decoded.observations) {
      const bad = badNumbers(observation);
      if (bad.length > 0) throw new Error(`bad numbers: ${bad}`);
    }
  }
  return outcome;
}

export function sentenceCampaign(count: number, seed: number): Campaign {
  const campaign = createCampaign('sentences', 'engine');
  const chance = createChance(seed);
  const { below, oneIn } = chance;
  const line = createLines(chance);

  function command(): Extract<Input, { kind: 'command' }>['command'] {
    switch (below(5)) {
      case 0:
        return { do: 'mark', how: { here: true } };
      case 1:
        return { do: 'mark', how: { lat: 52.85, lon: 5.31 } };
      case 2:
        return { do: 'weigh' };
      case 3:
        return { do: 'watch', change: { limits: { depthBelow: 3, windAbove: 10, windShift: 40 } } };
      default:
        return { do: 'aweigh' };
    }
  }

  let done = 0;
  while (done < count) {
    let engine = freshEngine();
    let at = 1_534_758_456;
    /** What has happened since the last look: enough to find out, small enough to keep. */
    let since: Input[] = [];
    let before = JSON.stringify(engine);
    for (let i = 0; i < NIGHT && done < count; i++, done++) {
      at += below(10) / 50;
      if (oneIn(20_000)) at += below(200_000);
      const input: Input = oneIn(2000)
        ? { kind: 'command', at, by: 'fuzz', command: command() }
        : { kind: 'line', at, source: `udp${1 + below(3)}`, text: line() };
      since.push(input);
      try {
        const { events } = (() => {
          const stepped = step(engine, input);
          engine = stepped.state;
          return stepped;
        })();
        campaign.tried(events.length > 0 ? 'with events' : 'quiet');
        for (const event of events) {
          const bad = badNumbers(event);
          if (bad.length > 0) throw new Error(`bad numbers in an event: ${bad}`);
        }
        if (i % LOOK_EVERY === LOOK_EVERY - 1) {
          checkEngine(engine, at);
          before = JSON.stringify(engine);
          if (before.length > LARGEST_STATE) throw new Error(`the state has grown to ${before.length} bytes`);
          since = [];
        }
      } catch (error) {
        campaign.found(`${(error as Error).message}`, { state: JSON.parse(before), inputs: since });
        break;
      }
    }
  }
  return campaign.done();
}
