import type { Input } from '../../shared/input.ts';
import { formatTag, readTags } from '../../shared/sentences/tag.ts';

export type LineInput = Extract<Input, { kind: 'line' }>;
/** What is not a received line and not the mere passing of time. */
export type Act = Exclude<Input, { kind: 'line' | 'tick' }>;

/** Kinds of input that stand in a file of acts; a line stands there only when it would not survive as a recorded sentence. */
const KINDS: readonly Input['kind'][] = ['command', 'link', 'fault', 'settings', 'line'];

/** Line ends, and characters that are no single byte. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: the bytes of a received line are just what is meant
const NOT_RECORDABLE = /[\r\n]|[^\x00-\xff]/;

/**
 * The line as a recorded sentence, `\s:SOURCE,c:TIME*hh\LINE`, with its line end, one character a byte; undefined when time,
 * source or text would not come back from it as they are.
 */
export function lineRecord({ at, source, text }: LineInput): string | undefined {
  if (Number(at.toFixed(6)) !== at || NOT_RECORDABLE.test(text)) return undefined;
  try {
    return `${formatTag(at, source)}${text}\n`;
  } catch {
    return undefined; // a time or a source that a TAG block cannot hold
  }
}

/** An input as a line of JSON, its time first. */
export function actRecord(input: Act | LineInput): string {
  const { at, ...rest } = input;
  return `${JSON.stringify({ at, ...rest })}\n`;
}

/** The input in a recorded sentence, or undefined when the record is damaged. */
export function readLineRecord(record: string): LineInput | undefined {
  const end = record.indexOf('\\', 1);
  // Only the block that the journal wrote: another may follow that came with the sentence.
  const tags = readTags(record.slice(0, end + 1), true);
  if (!tags.ok || tags.tag?.at === undefined || tags.tag.source === undefined) return undefined;
  return { kind: 'line', at: tags.tag.at, source: tags.tag.source, text: record.slice(end + 1) };
}

/** The input in a line of JSON, or undefined when the record is damaged. */
export function readActRecord(record: string): Input | undefined {
  try {
    const input = JSON.parse(record) as Input;
    return KINDS.includes(input.kind) && Number.isFinite(input.at) ? input : undefined;
  } catch {
    return undefined;
  }
}
