/** Longest text without a line end that is held: twice the longest sentence that any maker was seen to send, with its TAG blocks. */
const CAP = 512;
/** In an endless noise what is discarded is reported each time it comes to so many bytes. */
const REPORT_EVERY = 8192;

/** A sentence or a TAG block begins with one of these. */
const START = /[$!\\]/;
const isStart = (code: number): boolean => code === 0x24 || code === 0x21 || code === 0x5c;
/** Anything but spaces and tabs. */
const NOT_BLANK = /[^ \t\v\f]/;

export interface Framer {
  push(chunk: Buffer): void;
  /** Ends the line that is being held: the connection or the datagram is over. */
  flush(): void;
  /** Characters held of a line that has not ended: never more than the cap between two calls. */
  readonly held: number;
}

export interface FramerOptions {
  /** Longest line that is passed on, characters. */
  cap?: number;
  /** A line that is not blank, without its line end, one character a byte (latin1). */
  online(line: string): void;
  /** So many bytes without line end and without the start of a sentence were discarded. */
  onoverlong(bytes: number): void;
}

/**
 * Cuts a stream of bytes into lines at CR, LF or CRLF, however it was chopped on its way. Text beyond the cap is cut where the
 * last sentence in it begins, so that a sender without line ends is still understood; where none begins it is discarded, counted,
 * up to the next line end or start of a sentence. Takes time in proportion to the bytes, and holds at most the cap.
 */
export function createFramer({ cap = CAP, online, onoverlong }: FramerOptions): Framer {
  let held = '';
  let isDiscarding = false;
  let discarded = 0;

  function discard(count: number): void {
    discarded += count;
    for (; discarded >= REPORT_EVERY; discarded -= REPORT_EVERY) onoverlong(REPORT_EVERY);
  }

  function stopDiscarding(): void {
    isDiscarding = false;
    if (discarded > 0) onoverlong(discarded);
    discarded = 0;
  }

  /** Takes text that has no line end in it. */
  function take(text: string): void {
    if (!isDiscarding) held += text;
    else if (!resume(text)) return;
    while (held.length > cap) {
      let start = cap - 1;
      while (start > 0 && !isStart(held.charCodeAt(start))) start--;
      if (start > 0) {
        pass(held.slice(0, start));
        held = held.slice(start);
      } else {
        const rest = held.slice(cap);
        held = '';
        isDiscarding = true;
        discard(cap);
        if (!resume(rest)) return;
      }
    }
  }

  /** While discarding: a sentence that begins in `text` ends it. */
  function resume(text: string): boolean {
    const start = text.search(START);
    discard(start < 0 ? text.length : start);
    if (start < 0) return false;
    stopDiscarding();
    held = text.slice(start);
    return true;
  }

  function pass(line: string): void {
    if (line.charCodeAt(0) > 0x20 || NOT_BLANK.test(line)) online(line);
  }

  function endLine(): void {
    if (isDiscarding) stopDiscarding();
    const line = held;
    held = '';
    if (line !== '') pass(line);
  }

  return {
    push(chunk) {
      const text = chunk.toString('latin1');
      let from = 0;
      let lf = text.indexOf('\n');
      let cr = text.indexOf('\r');
      while (lf >= 0 || cr >= 0) {
        const end = lf < 0 || (cr >= 0 && cr < lf) ? cr : lf;
        if (end > from) take(text.slice(from, end));
        endLine();
        from = end + 1;
        if (end === lf) lf = text.indexOf('\n', from);
        else cr = text.indexOf('\r', from);
      }
      if (from < text.length) take(text.slice(from));
    },
    flush: endLine,
    get held() {
      return held.length;
    },
  };
}
