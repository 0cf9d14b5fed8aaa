import { BACKSLASH } from '../sentences/characters.ts';
import { readTags } from '../sentences/tag.ts';
import type { Entry } from './dating.ts';
import { utcOf } from './utc.ts';

/** What a recording without TAG blocks calls its only source. */
const SOURCE = 'file';

/**
 * A line of a recording with its TAG time and source, or else the UTC in it. A damaged TAG block stays with the line, whose decoder will
 * refuse it. `sources` holds one text for each name, since a recording has millions of lines.
 */
export function entryOf(line: string, sources: Map<string, string>): Entry {
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
