import { createEngine } from '../../../shared/engine.ts';
import type { Input } from '../../../shared/input.ts';
import { type FoundAnchorage, findAnchorage, wayOf } from '../../../shared/logbook/found-anchorage.ts';
import type { Recording } from '../../../shared/logbook/rerun.ts';
import { createDating } from '../../../shared/recording/dating.ts';
import { entryOf } from '../../../shared/recording/entry.ts';
import { createReckoning } from '../../../shared/recording/reckoning.ts';
import type { FileTold } from '../messages.ts';

/** A recorded file that was dropped on the page, as a night: nothing of it leaves this device. */

const BY = 'file';
/** A line that does not end is no sentence, characters; and lines between two pauses. */
const LONGEST = 4096;
const AT_A_TIME = 5000;
/** Lines that a phone holds at once. */
const MOST_LINES = 5_000_000;

/** Rejects with words when the file holds no night. `read` hears the share that is read. */
export async function readFile(
  file: File,
  { settings, mark }: FileTold,
  stop: AbortSignal,
  read: (share: number) => void,
): Promise<{ recording: Recording; notes: string[] }> {
  const notes: string[] = [];
  const lines: Input[] = [];
  const way = mark ? undefined : wayOf(settings);
  const dating = createDating(file.name, createReckoning(), (note) => notes.push(note));
  const sources = new Map<string, string>();
  const drain = () => {
    for (const { at, source, text } of dating.drain()) {
      const input: Input = { kind: 'line', at, source, text };
      lines.push(input);
      way?.take(input);
    }
  };
  for await (const batch of linesOf(file, notes, read)) {
    for (const line of batch) dating.take(entryOf(line, sources));
    drain();
    if (lines.length > MOST_LINES)
      throw new Error(`It has more than ${MOST_LINES / 1e6} million lines: cut it into nights first.`);
    await new Promise((resolve) => setTimeout(resolve));
    stop.throwIfAborted();
  }
  dating.end();
  drain();
  const [first, last] = [lines[0], lines.at(-1)];
  if (!first || !last) throw new Error('There is no line in it that could be a recorded sentence.');
  const found: FoundAnchorage | { why: string } = way
    ? findAnchorage(way, settings)
    : // Just before the first line, as an import has it: so both make the same night of it.
      { from: first.at - 2e-6, to: last.at, command: { do: 'mark', how: mark! }, words: [] };
  if ('why' in found)
    throw new Error(
      `Where the anchor lay is not told, and cannot be found from the track: ${found.why} Tell the mark by latitude and longitude.`,
    );
  const begin = lines.findIndex(({ at }) => at >= found.from);
  const end = lines.findLastIndex(({ at }) => at <= found.to) + 1;
  const inputs: Input[] = [
    ...lines.slice(0, begin),
    { kind: 'command', at: found.from, by: BY, command: found.command },
    ...lines.slice(begin, end),
    { kind: 'command', at: Math.max(found.to, lines[end - 1]!.at), by: BY, command: { do: 'aweigh' } },
  ];
  return {
    recording: { at: inputs[0]!.at, exact: true, state: createEngine(settings), inputs },
    notes: [...found.words, ...notes],
  };
}

/** Lines of a file, plain or gzip whatever its name; one character a byte, as the daemon reads it. */
async function* linesOf(
  file: File,
  notes: string[],
  read: (share: number) => void,
): AsyncGenerator<string[]> {
  const magic = new Uint8Array(await file.slice(0, 3).arrayBuffer());
  const isPacked = magic[0] === 0x1f && magic[1] === 0x8b;
  const skips = magic[0] === 0xef && magic[1] === 0xbb && magic[2] === 0xbf ? 3 : 0;
  let through = 0;
  const counted = file
    .slice(skips)
    .stream()
    .pipeThrough(
      new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>({
        transform(chunk, out) {
          through += chunk.length;
          read(through / file.size);
          out.enqueue(chunk);
        },
      }),
    );
  const bytes = isPacked ? counted.pipeThrough(new DecompressionStream('gzip')) : counted;
  const reader = bytes.getReader();
  let rest = '';
  for (;;) {
    let piece: Awaited<ReturnType<typeof reader.read>>;
    try {
      piece = await reader.read();
    } catch (error) {
      notes.push(
        `${file.name}: it is damaged or cut off (${(error as Error).message}); read as far as it goes.`,
      );
      break;
    }
    if (piece.done) break;
    const lines = (rest + latin1(piece.value)).split(/[\r\n]+/);
    rest = lines.pop()!.slice(-LONGEST);
    const whole = lines.filter((line) => line !== '' && line.length <= LONGEST);
    for (let from = 0; from < whole.length; from += AT_A_TIME) yield whole.slice(from, from + AT_A_TIME);
  }
  if (rest !== '') yield [rest];
}

const CALL = 8192;

function latin1(bytes: Uint8Array): string {
  let text = '';
  for (let from = 0; from < bytes.length; from += CALL)
    text += String.fromCharCode(...bytes.subarray(from, from + CALL));
  return text;
}
