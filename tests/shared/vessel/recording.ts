import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Sentence } from '../../../shared/sentences/decoded.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { recorded } from '../../recorded.ts';

export interface HeardAt {
  at: number;
  sentence: Sentence;
  line: number;
}

const DAY = 86_400;
/** So many lines without a new time are a frozen receiver; time then goes on at the 7 lines a second of the recorded buses. */
const FROZEN_LINES = 40;
const LINE = 0.14;
const CLOSE = 0.001;
/** A time further ahead than this is no gap but a fault. */
const LONGEST_GAP = 3600;

/**
 * All good sentences of a recording that has no arrival times, on a timeline that never goes back: the UTC they carry while it
 * advances, else one made from the rate of lines. `start` is a time on the day of the first one, when their own dates are not wanted.
 * Undefined, and said so, when the recording is absent.
 */
export function recording(path: string, start?: number): HeardAt[] | undefined {
  const full = recorded(path);
  if (full === undefined) return undefined;
  const bytes = readFileSync(full);
  const text = (full.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('latin1');
  const heard: HeardAt[] = [];
  let at: number | undefined;
  let silent = 0;
  for (const [line, content] of text.split(/\r?\n/).entries()) {
    if (content.startsWith('#')) continue;
    if (at !== undefined) at += ++silent > FROZEN_LINES ? LINE : CLOSE;
    for (const piece of splitLine(content)) {
      const sentence = decode(piece, { requireChecksum: true });
      if (!sentence.ok) continue;
      const time = sentence.observations.find((said) => said.kind === 'time');
      const about = at ?? start;
      const day =
        (time && (start === undefined ? time.date : undefined)) ??
        (about === undefined ? undefined : dayOf(about));
      if (time && day !== undefined) {
        const told = day + time.timeOfDay;
        if (at === undefined || (told > at && told < at + LONGEST_GAP)) {
          at = told;
          silent = 0;
        }
      }
      if (at !== undefined) heard.push({ at, sentence, line: line + 1 });
    }
  }
  return heard;
}

const dayOf = (utc: number): number => DAY * Math.floor(utc / DAY);
