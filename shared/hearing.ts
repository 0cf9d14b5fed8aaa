import type { EngineState } from './engine.ts';
import type { Input } from './input.ts';
import { count, refusedLine } from './inputs.ts';
import { decode } from './sentences/decode.ts';
import type { Sentence } from './sentences/decoded.ts';
import { splitLine } from './sentences/split.ts';
import { hear, pass, view } from './vessel/vessel.ts';
import type { VesselView } from './vessel/view.ts';

/**
 * The first half of the engine: what the instruments say. Nothing of it hangs on the watch, its mark, circle or limits. So a night
 * that is lived again with another circle may take it from what was kept of it (`logbook/heard`), while the other half, `step`, is the same.
 */
export interface Hearing {
  /** A whole second goes by. */
  second(state: EngineState, at: number): Second;
  /** A line came. In turn what it brought, nothing of which hangs on what is made of it. */
  line(state: EngineState, line: Line): readonly Said[];
  /** The boat as known at the time of the present input. */
  look(state: EngineState, at: number): VesselView;
}

export type Line = Extract<Input, { kind: 'line' }>;

export interface Second {
  /** Changes of source in plain words. */
  notes: readonly string[];
  /** The boat as known now. */
  vessel: VesselView;
}

/** What one sentence brought that others than the vessel's own room need. */
export interface Said {
  notes: readonly string[];
  /** A sentence that other rooms read. */
  sentence?: Sentence;
  /** The boat as known now, when the sentence brought a new fix. */
  fixed?: VesselView;
}

/** Sentences that are read beside the vessel's own room: neighbours, and a chain counter's metres. */
const READ_BY_OTHERS = new Set(['VDM', 'VDO', 'XDR']);
const NOTHING: readonly Said[] = [];
const NO_NOTES: readonly string[] = [];

/** As it is while it happens. */
export const instruments: Hearing = {
  second({ vessel, settings }, at) {
    const notes = pass(vessel, settings, at);
    return { notes, vessel: view(vessel, settings, at) };
  },
  line: hearLine,
  look: ({ vessel, settings }, at) => view(vessel, settings, at),
};

function hearLine({ vessel, settings, inputs }: EngineState, { at, source, text }: Line): readonly Said[] {
  const requireChecksum = !settings.checksumOptional.includes(source);
  let all: Said[] | undefined;
  for (const piece of splitLine(text)) {
    const decoded = decode(piece, { requireChecksum });
    if (!decoded.ok) {
      refusedLine(inputs, source, decoded.reason, `${decoded.why}: ${piece.slice(0, 90)}`);
      continue;
    }
    count(inputs, source, at);
    const { fix, notes } = hear(vessel, settings, decoded, at, source);
    const isRead = READ_BY_OTHERS.has(decoded.id);
    if (!fix && notes.length === 0 && !isRead) continue;
    all ??= [];
    all.push({
      notes,
      ...(isRead ? { sentence: decoded } : {}),
      ...(fix ? { fixed: view(vessel, settings, at) } : {}),
    });
  }
  return all ?? NOTHING;
}

/** Only the sentences of a line that others read, for a line that was heard before: a night has too many of them to keep them all. */
export function readAgain({ settings }: EngineState, { source, text }: Line): readonly Said[] {
  const requireChecksum = !settings.checksumOptional.includes(source);
  const all: Said[] = [];
  for (const piece of splitLine(text)) {
    const decoded = decode(piece, { requireChecksum });
    if (decoded.ok && READ_BY_OTHERS.has(decoded.id)) all.push({ notes: NO_NOTES, sentence: decoded });
  }
  return all;
}
