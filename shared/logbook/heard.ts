import type { EngineState } from '../engine.ts';
import { type Hearing, instruments, readAgain, type Said } from '../hearing.ts';
import type { Input } from '../input.ts';
import type { InputsState } from '../inputs.ts';
import type { VesselView } from '../vessel/view.ts';
import { createViews } from './views.ts';

/** A hearing that goes along the inputs of one night. */
export interface NightHearing extends Hearing {
  /** To be told before the engine takes anything of input `index`, and after it has taken it. */
  begin(index: number): void;
  end(state: EngineState, input: Input): void;
  /** The engine broke at an input: what is kept may lack something. */
  broken(): void;
}

/** The instruments themselves: nothing is kept. */
export const anew: NightHearing = { ...instruments, begin() {}, end() {}, broken() {} };

/**
 * What the instruments said through a night, kept while it is lived for the first time. With it the night is lived again with something
 * else tried in a fraction of the time, since no sentence is decoded and no source weighed anew. It serves all that can be tried (see
 * `what-if`): nothing of that touches what the instruments say.
 */
export interface Heard {
  /** Hears from the instruments and keeps it; for one run through all inputs as they are. */
  keeping: NightHearing;
  /** The same again. Undefined when it could not be kept: then it is to be heard anew. */
  again(): NightHearing | undefined;
}

/** Something is asked that was not kept: an error of hawse, never to be taken for a fault of the input. */
export class NotHeard extends Error {}

/** Views that are kept at most, of 416 bytes each, 62 MB: a night of 14 h with a fix a second, which takes three; of 6 h with five. */
const MOST = 150_000;
/** What is rare is kept as it is, in some twenty times the room. */
const RARER = 20;

/** What a line brought: nothing; a fix and nothing else; a sentence that others read and nothing else; something rarer. */
const NOTHING = 0;
const FIX = 1;
const READ = 2;
const RARE = 3;

const NONE: readonly never[] = [];

function kindOf(all: readonly Said[]): number {
  if (all.length === 0) return NOTHING;
  if (all.some(({ notes }) => notes.length > 0)) return RARE;
  if (all.every(({ sentence, fixed }) => sentence && !fixed)) return READ;
  return all.length === 1 && !all[0]!.sentence ? FIX : RARE;
}

/** `count`: inputs of the night; `most`: views that are kept. */
export function createHeard(count: number, most = MOST): Heard {
  let views = createViews();
  /** Number of the view of each whole second that was lived, in turn, and what was told then. */
  const seconds: number[] = [];
  const told = new Map<number, readonly string[]>();
  /** What each input brought, and the number of the view of its fix, when it is no more than that. */
  const brought = new Uint8Array(count);
  const fixes = new Uint32Array(count);
  const rare = new Map<number, readonly Said[]>();
  /** Number of the view after an input, plus one, where somebody may ask for it: after each order, and the first line of each second. */
  const looks = new Uint32Array(count);
  /** What the inputs had counted after each input that is no line, and at the end. */
  const counted = new Map<number, InputsState>();
  let isWhole = false;
  let isBroken = false;

  function keep(view: VesselView): number {
    if (views.count() >= most) giveUp();
    return isBroken ? 0 : views.keep(view);
  }

  /** Something is missing, or it is too much for a phone: what was kept takes no more room. */
  function giveUp(): void {
    isBroken = true;
    views = createViews();
    seconds.length = 0;
    for (const kept of [told, rare, counted]) kept.clear();
  }

  function keeping(): NightHearing {
    let now = 0;
    let second: number | undefined;
    let last: { view: VesselView; number: number } | undefined;

    return {
      second(state, at) {
        const heard = instruments.second(state, at);
        if (isBroken) return heard;
        if (heard.notes.length > 0) told.set(seconds.length, heard.notes);
        seconds.push(keep(heard.vessel));
        return heard;
      },
      line(state, line) {
        const all = instruments.line(state, line);
        if (isBroken) return all;
        const kind = kindOf(all);
        brought[now] = kind;
        if (kind === FIX) {
          const view = all[0]!.fixed!;
          last = { view, number: keep(view) };
          fixes[now] = last.number;
        } else if (kind === RARE) {
          rare.set(now, all);
          if (rare.size > most / RARER) giveUp();
        }
        return all;
      },
      look: instruments.look,
      begin(index) {
        now = index;
        last = undefined;
      },
      end(state, input) {
        if (isBroken) return;
        const { at, kind } = input;
        if (now === count - 1) isWhole = true;
        if (kind !== 'line' || now === count - 1) counted.set(now, structuredClone(state.inputs));
        const begun = Math.floor(at);
        if (kind === 'tick' || (kind === 'line' && begun === second)) return;
        if (kind === 'line') second = begun;
        looks[now] = 1 + (last ? last.number : keep(instruments.look(state, at)));
      },
      broken: giveUp,
    };
  }

  function again(): NightHearing {
    let now = 0;
    let next = 0;

    function view(number: number | undefined, at: number): VesselView {
      const seen = number === undefined ? undefined : views.view(number);
      if (seen?.at !== at) throw new NotHeard(`What the instruments said at ${at} was not kept.`);
      return seen;
    }

    return {
      second(_, at) {
        const vessel = view(seconds[next], at);
        const notes = told.get(next) ?? NONE;
        next++;
        return { notes, vessel };
      },
      line(state, line) {
        switch (brought[now]) {
          case FIX:
            return [{ notes: NONE, fixed: view(fixes[now], line.at) }];
          case READ:
            return readAgain(state, line);
          case RARE:
            return structuredClone(rare.get(now)!);
          default:
            return NONE;
        }
      },
      look: (_, at) => view(looks[now]! - 1, at),
      begin(index) {
        now = index;
      },
      end(state) {
        const inputs = counted.get(now);
        if (inputs) state.inputs = structuredClone(inputs);
      },
      broken() {},
    };
  }

  return { keeping: keeping(), again: () => (isWhole && !isBroken ? again() : undefined) };
}
