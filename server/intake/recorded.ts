import { BACKSLASH } from '../../shared/sentences/characters.ts';
import { readTags } from '../../shared/sentences/tag.ts';
import { createDating, type Entry, type RecordedLine } from './dating.ts';
import { fileLines } from './file.ts';
import { createReckoning } from './reckoning.ts';
import { utcOf } from './utc.ts';

export type { RecordedLine };

/** What a recording without TAG blocks calls its only source. */
const SOURCE = 'file';

/**
 * Recorded sentences, one file after the other, with their times: from the TAG blocks, or reckoned from the UTC in the sentences.
 * `notes` says in words what was doubtful about the times of each file; complete when the lines are through. Rejects when a file
 * cannot be read; damaged content never does.
 */
export function recordedLines(paths: string[]): { lines: AsyncGenerator<RecordedLine[]>; notes: string[] } {
  const notes: string[] = [];
  return { lines: readAll(paths, (note) => notes.push(note)), notes };
}

async function* readAll(paths: string[], told: (note: string) => void): AsyncGenerator<RecordedLine[]> {
  const reckoning = createReckoning();
  for (const path of paths) {
    const dating = createDating(path, reckoning, told);
    const sources = new Map<string, string>();
    for await (const lines of fileLines(path, told)) {
      for (const line of lines) dating.take(read(line, sources));
      const batch = dating.drain();
      if (batch.length > 0) yield batch;
    }
    dating.end();
    const batch = dating.drain();
    if (batch.length > 0) yield batch;
  }
}

/** A line's TAG time and source, or else the UTC in it. A damaged TAG block stays with the line, whose decoder will refuse it. */
function read(line: string, sources: Map<string, string>): Entry {
  if (line.charCodeAt(0) === BACKSLASH) {
    const end = line.indexOf('\\', 1);
    // Only the first block is the recorder's: one behind it came with the sentence.
    const isAlone = line.charCodeAt(end + 1) !== BACKSLASH;
    const tags = readTags(isAlone ? line : line.slice(0, end + 1), true);
    if (tags.ok && tags.tag?.at !== undefined) {
      const name = tags.tag.source ?? SOURCE;
      let source = sources.get(name);
      if (source === undefined) {
        source = name;
        sources.set(name, source);
      }
      return { text: line.slice(end + 1), source, tagged: tags.tag.at };
    }
  }
  return { text: line, source: SOURCE, utc: utcOf(line) };
}
