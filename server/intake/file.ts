import { createReadStream } from 'node:fs';
import { createGunzip } from 'node:zlib';
import { createFramer } from './framer.ts';

/** Longer than live text: what hawse recorded carries its own TAG block in front. */
const CAP = 4096;
const CHUNK = 1 << 16;
/** What is lost of good text in front of a damaged place: the decompressor drops what it is at. */
const PIECE = 1 << 12;
const BOM = [0xef, 0xbb, 0xbf];

/**
 * The lines of a recorded file, plain or gzip whatever its name, in batches as they are read; LF, CRLF or CR, one character a byte.
 * Damaged compression is told in words and read up to the damage; discarded noise is told. Rejects when the file cannot be
 * read.
 */
export async function* fileLines(path: string, told: (note: string) => void): AsyncGenerator<string[]> {
  let lines: string[] = [];
  let discarded = 0;
  const framer = createFramer({
    cap: CAP,
    online: (line) => lines.push(line),
    onoverlong: (bytes) => {
      discarded += bytes;
    },
  });
  for await (const chunk of plain(path, told)) {
    framer.push(chunk);
    if (lines.length === 0) continue;
    yield lines;
    lines = [];
  }
  framer.flush();
  if (lines.length > 0) yield lines;
  if (discarded > 0)
    told(`${path}: ${discarded} bytes without line end or start of a sentence were passed over.`);
}

/** The bytes of the file, decompressed where needed, without the byte order mark that some editors put in front. */
async function* plain(path: string, told: (note: string) => void): AsyncGenerator<Buffer> {
  const chunks: AsyncIterator<Buffer> = createReadStream(path, { highWaterMark: CHUNK })[
    Symbol.asyncIterator
  ]();
  const first = await chunks.next();
  if (first.done) return;
  const all = joined(first.value, chunks);
  if (first.value[0] === 0x1f && first.value[1] === 0x8b) yield* gunzipped(all, path, told);
  else yield* all;
}

async function* joined(first: Buffer, rest: AsyncIterator<Buffer>): AsyncGenerator<Buffer> {
  yield BOM.every((byte, i) => first[i] === byte) ? first.subarray(BOM.length) : first;
  for (let next = await rest.next(); !next.done; next = await rest.next()) yield next.value;
}

/** Decompressed piece by piece: a pipeline that fails would drop most of what it had decompressed. */
async function* gunzipped(
  chunks: AsyncGenerator<Buffer>,
  path: string,
  told: (note: string) => void,
): AsyncGenerator<Buffer> {
  const gunzip = createGunzip({ chunkSize: 1 << 18 });
  let out: Buffer[] = [];
  gunzip.on('data', (piece: Buffer) => out.push(piece));
  const failed = new Promise<Error>((resolve) => gunzip.once('error', resolve));
  const ended = new Promise<undefined>((resolve) => gunzip.once('end', () => resolve(undefined)));
  let fault: Error | undefined;
  reading: for await (const chunk of chunks) {
    for (let from = 0; from < chunk.length; from += PIECE) {
      const piece = chunk.subarray(from, from + PIECE);
      fault = await Promise.race([
        failed,
        new Promise<undefined>((then) => gunzip.write(piece, () => then(undefined))),
      ]);
      yield* out;
      out = [];
      if (fault) break reading;
    }
  }
  if (!fault) {
    gunzip.end();
    fault = await Promise.race([failed, ended]);
    yield* out;
  }
  if (fault)
    told(`${path}: the compressed file is damaged or cut off (${fault.message}); read as far as it goes.`);
}
