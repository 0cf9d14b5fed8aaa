/** Longest line that is listened to; a display sends sentences of 82. */
const CAP = 256;

/** Cuts bytes into lines. What grows beyond the cap without a line end is dropped. */
export function createLines(take: (line: string) => void): (chunk: Buffer) => void {
  let held = '';
  return (chunk) => {
    const parts = (held + chunk.toString('latin1')).split(/[\r\n]+/);
    held = parts.pop() ?? '';
    if (held.length > CAP) held = '';
    for (const part of parts) if (part !== '' && part.length <= CAP) take(part);
  };
}
