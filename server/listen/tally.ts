import { decode } from '../../shared/sentences/decode.ts';
import { splitLine } from '../../shared/sentences/split.ts';
import type { Said } from './duties.ts';

/** One kind of sentence of one talker on one input. */
export interface SentenceHeard {
  input: string;
  talker: string;
  id: string;
  count: number;
  /** Over the last ten seconds, or since the first of anything when that is less. */
  perSecond: number;
  /** Seconds since the last one. */
  age: number;
  /** False: hawse does not read this kind. */
  isRead: boolean;
  /** What they said so far. */
  says: Said[];
}

export interface Tally {
  /** A line came on `input` at `at`, seconds. */
  line(input: string, text: string, at: number, requireChecksum: boolean): void;
  /** What was heard until `at`, by input, talker and kind. */
  sentences(at: number): SentenceHeard[];
  /** Everything that was said, whoever said it. */
  said(): ReadonlySet<Said>;
}

const WINDOW = 10;
/** Noise that looks like sentences must not fill the memory. */
const MOST_KINDS = 300;
/** Talker and identifier, or a maker's own sentence. */
const ADDRESS = /[$!](?:(P[A-Z0-9]{3,7})|([A-Z]{2})([A-Z]{3}))[,*]/;

interface Kind {
  input: string;
  talker: string;
  id: string;
  count: number;
  recent: number[];
  isRead: boolean;
  says: Set<Said>;
}

/** Counts what comes by kind of sentence; what is refused by checksum or form is counted elsewhere. Reads no clock. */
export function createTally(): Tally {
  const kinds = new Map<string, Kind>();
  const said = new Set<Said>();
  let first: number | undefined;

  function kindOf(input: string, talker: string, id: string, isRead: boolean): Kind | undefined {
    const key = `${input} ${talker}${id}`;
    const known = kinds.get(key);
    if (known || kinds.size >= MOST_KINDS) return known;
    const made = { input, talker, id, count: 0, recent: [], isRead, says: new Set<Said>() };
    kinds.set(key, made);
    return made;
  }

  return {
    line(input, text, at, requireChecksum) {
      first ??= at;
      for (const piece of splitLine(text)) {
        const decoded = decode(piece, { requireChecksum });
        if (!decoded.ok && decoded.reason !== 'unknown') continue;
        const address = decoded.ok ? undefined : ADDRESS.exec(piece);
        if (!decoded.ok && !address) continue;
        const talker = decoded.ok ? decoded.talker : (address?.[2] ?? '');
        const id = decoded.ok ? decoded.id : (address?.[3] ?? address?.[1] ?? '');
        const kind = kindOf(input, talker, id, decoded.ok);
        if (!kind) continue;
        kind.count++;
        kind.recent.push(at);
        while (kind.recent[0]! <= at - WINDOW) kind.recent.shift();
        if (!decoded.ok) continue;
        for (const observation of decoded.observations) {
          kind.says.add(observation.kind);
          said.add(observation.kind);
        }
      }
    },
    sentences(at) {
      const span = Math.max(1, Math.min(WINDOW, at - (first ?? at)));
      return [...kinds.values()]
        .map(({ input, talker, id, count, recent, isRead, says }) => ({
          input,
          talker,
          id,
          count,
          perSecond: recent.filter((one) => one > at - WINDOW).length / span,
          age: at - recent.at(-1)!,
          isRead,
          says: [...says].sort(),
        }))
        .sort((a, b) => order(a).localeCompare(order(b), 'en'));
    },
    said: () => said,
  };
}

const order = ({ input, talker, id }: SentenceHeard): string => `${input} ${talker}${id}`;
