import { createDating, type RecordedLine } from '../../shared/recording/dating.ts';
import { entryOf } from '../../shared/recording/entry.ts';
import { createReckoning } from '../../shared/recording/reckoning.ts';
import { fileLines } from './file.ts';

export type { RecordedLine };

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
      for (const line of lines) dating.take(entryOf(line, sources));
      const batch = dating.drain();
      if (batch.length > 0) yield batch;
    }
    dating.end();
    const batch = dating.drain();
    if (batch.length > 0) yield batch;
  }
}
