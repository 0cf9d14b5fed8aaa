import { COMMA } from './characters.ts';
import { decimal } from './decimal.ts';

/** Sentences longer than this are refused; receivers exceed the standard's 82 (up to 203 seen in the gpsd logs). */
export const LONGEST_SENTENCE = 256;
/** Position sentences longer than this are two sentences merged: the longest real ones have 90 characters. */
export const LONGEST_POSITION = 120;

/**
 * The comma-separated fields of one sentence, read where they stand, without cutting the text up: a replay reads more
 * than a thousand sentences a millisecond, and strings would cost it more than the reading.
 *
 * A field that is there but wrong sets `fault`, the first one stays, and the reading goes on with undefined: so a decoder
 * reads what it needs in a straight line, and its observations are thrown away afterwards if there was a fault. A field that is
 * blank, or beyond the last, is unknown: undefined, 0 as a letter, '' as a text.
 */
export class Fields {
  count = 0;
  fault: string | undefined;
  text = '';
  private readonly starts = new Int32Array(LONGEST_SENTENCE + 2);

  /** Takes the fields between `from` and `to`, at most LONGEST_SENTENCE characters. `from` is behind the comma after the address. */
  load(text: string, from: number, to: number): void {
    this.text = text;
    this.fault = undefined;
    this.starts[0] = from;
    let count = 0;
    for (let i = from; i < to; i++) {
      if (text.charCodeAt(i) === COMMA) this.starts[++count] = i + 1;
    }
    if (from <= to) this.starts[++count] = to + 1;
    this.count = count;
  }

  /** Where field `i` begins, and where it ends (the place of its comma); both 0 beyond the last field. */
  start(i: number): number {
    return i < this.count ? this.starts[i]! : 0;
  }
  end(i: number): number {
    return i < this.count ? this.starts[i + 1]! - 1 : 0;
  }

  blank(i: number): boolean {
    return this.start(i) === this.end(i);
  }

  /** True when every field from `i` on is blank. */
  blankFrom(i: number): boolean {
    for (let k = i; k < this.count; k++) if (!this.blank(k)) return false;
    return true;
  }

  /** Marks the sentence as wrong; the first reason given is the one reported. */
  fail(why: string): undefined {
    this.fault ??= why;
    return undefined;
  }

  /** The field as it was sent. */
  raw(i: number): string {
    return this.text.slice(this.start(i), this.end(i));
  }

  /** A number within `low` … `high`. */
  number(i: number, low: number, high: number, what: string): number | undefined {
    const from = this.start(i);
    const to = this.end(i);
    if (from === to) return undefined;
    const value = decimal(this.text, from, to);
    if (value === undefined) return this.fail(`${what} "${this.raw(i)}" is not a number`);
    if (value < low || value > high)
      return this.fail(`${what} ${this.raw(i)} is not within ${low} to ${high}`);
    return value;
  }

  /** A whole number within `low` … `high`. */
  whole(i: number, low: number, high: number, what: string): number | undefined {
    const value = this.number(i, low, high, what);
    if (value === undefined || Number.isInteger(value)) return value;
    return this.fail(`${what} ${this.raw(i)} is not a whole number`);
  }

  /** Character code of a one-letter field that must be one of `allowed`; 0 when blank. `of` names what the letter belongs to. */
  letter(i: number, allowed: string, what: string, of?: string): number {
    const from = this.start(i);
    const to = this.end(i);
    if (from === to) return 0;
    const code = this.text.charCodeAt(from);
    if (to - from === 1) {
      for (let k = 0; k < allowed.length; k++) if (allowed.charCodeAt(k) === code) return code;
    }
    const name = of === undefined ? what : `${what} of the ${of}`;
    this.fail(`${name} is "${this.raw(i)}", not one of ${allowed.split('').join(' ')}`);
    return 0;
  }

  /** A number within `low` … `high` whose unit letter, in the next field, must be `unit`: a number without its unit is a fault. */
  measure(i: number, unit: string, low: number, high: number, what: string): number | undefined {
    const value = this.number(i, low, high, what);
    const letter = this.letter(i + 1, unit, 'unit', what);
    if (value !== undefined && letter === 0) return this.fail(`${what} without its unit ${unit}`);
    return value;
  }

  /** A size whose sign is the letter in the next field: `sides` holds the positive, then the negative one. A size alone is a fault. */
  sided(i: number, sides: string, high: number, what: string): number | undefined {
    const size = this.number(i, 0, high, what);
    const side = this.letter(i + 1, sides, 'side', what);
    if (size === undefined) return undefined;
    if (side === 0) return this.fail(`${what} without its side`);
    return side === sides.charCodeAt(1) && size !== 0 ? -size : size;
  }

  /** Free text; the standard's `^hh` for a reserved character is turned back into that character. */
  words(i: number): string {
    const text = this.raw(i);
    if (!text.includes('^')) return text;
    return text.replace(/\^([0-9A-Fa-f]{2})/g, (_, hex: string) =>
      String.fromCharCode(Number.parseInt(hex, 16)),
    );
  }
}
