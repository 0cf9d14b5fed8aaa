import { BACKSLASH, BANG, COLON, COMMA, DOLLAR, isDigit, MINUS, SPACE, STAR } from './characters.ts';
import { checksumBefore } from './checksum.ts';

/** Fewest characters of an address: P and three letters of a maker. */
const SHORTEST_ADDRESS = 4;

const isAddressCharacter = (c: number): boolean => (c >= 0x41 && c <= 0x5a) || isDigit(c) || c === MINUS;

/**
 * One received line cut into pieces to decode: a piece begins wherever a sentence begins, so that a good sentence is not lost to
 * the noise or the torn sentence before it, nor two sentences to a missing line end. TAG blocks stay with what follows them.
 * Noise that leads is a piece of its own, to be refused and counted. Nothing but white space is lost, and a line that is not
 * blank has at least one piece. Takes time in proportion to the length of the line.
 */
export function splitLine(line: string): string[] {
  const text = line.charCodeAt(line.length - 1) > SPACE ? line : line.trim();
  const start = text.charCodeAt(0) === BACKSLASH ? text.indexOf('\\', 1) + 1 : 0;
  const first = text.charCodeAt(start);
  const ordinary =
    (first === DOLLAR || first === BANG) &&
    isOnlyAt(text, '$', start) &&
    isOnlyAt(text, '!', start) &&
    text.indexOf('\\', start) < 0;
  if (ordinary) return [text];
  return cut(text);
}

/** True when the character stands nowhere else than at `place`. */
function isOnlyAt(text: string, character: string, place: number): boolean {
  const found = text.indexOf(character);
  return found < 0 || (found === place && text.indexOf(character, place + 1) < 0);
}

function cut(text: string): string[] {
  const pieces: string[] = [];
  let from = 0;
  let lastMark = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c !== DOLLAR && c !== BANG && c !== BACKSLASH) continue;
    // Right behind a complete checksum the sentence is over; after a backslash it was the TAG block's own checksum.
    const isOver = lastMark !== BACKSLASH && checksumBefore(text, i) >= 0;
    if (isOver || (c !== BACKSLASH && isAddress(text, i + 1))) {
      const border = startOfTags(text, from, i);
      keep(pieces, text.slice(from, border));
      from = border;
    }
    lastMark = c;
  }
  keep(pieces, text.slice(from));
  return pieces;
}

function keep(pieces: string[], piece: string): void {
  const trimmed = piece.trim();
  if (trimmed !== '') pieces.push(trimmed);
}

/** True when an address and a comma stand at `from`, as in `GPRMC,`: a `$` or `!` before anything else is part of some free text. */
function isAddress(text: string, from: number): boolean {
  let i = from;
  while (isAddressCharacter(text.charCodeAt(i))) i++;
  const end = text.charCodeAt(i);
  return i - from >= SHORTEST_ADDRESS && (end === COMMA || end === STAR);
}

/** Where the TAG blocks that stand right in front of `i` begin, not before `from`; `i` when there are none. */
function startOfTags(text: string, from: number, i: number): number {
  let start = i;
  while (start - 2 >= from && text.charCodeAt(start - 1) === BACKSLASH) {
    let k = start - 2;
    while (k > from && text.charCodeAt(k) !== BACKSLASH) k--;
    if (text.charCodeAt(k) !== BACKSLASH || text.charCodeAt(k + 2) !== COLON) break;
    start = k;
  }
  return start;
}
