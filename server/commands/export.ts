import { createWriteStream } from 'node:fs';
import { rename, rm } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { EXPORTS, type ExportAs } from '../../shared/messages.ts';
import { inWords, logbookAt } from './night.ts';
import { readArguments, UsageError } from './usage.ts';

const HELP = `usage: hawse export --night ID --as ${EXPORTS.join('|')} [--data DIR] [--out FILE]

Writes a night of the logbook: its track as GPX 1.1, GeoJSON or CSV, or the recorded sentences themselves. Without --night it lists the
nights.

  --night ID    as listed, e.g. 2026-11-25T2010-1
  --as FORMAT   ${EXPORTS.join(', ')}
  --data DIR    data folder with the logbook (default: ./data)
  --out FILE    write here (default: standard output)
`;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    { night: { type: 'string' }, as: { type: 'string' }, data: { type: 'string' }, out: { type: 'string' } },
    HELP,
  );
  if (!read) return 0;
  const { night, as, data = 'data', out } = read.values;
  const logbook = await logbookAt(data, night);
  if (night === undefined) {
    const { nights } = await logbook.list(5000);
    for (const { id, place, from, to } of nights)
      process.stdout.write(
        `${id}  ${to === undefined ? 'at anchor' : `${((to - from) / 3600).toFixed(1)} h`.padStart(9)}  ${place ?? ''}\n`,
      );
    return 0;
  }
  if (!EXPORTS.includes(as as ExportAs))
    throw new UsageError(
      `--as ${as === undefined ? 'is missing' : `"${as}" is unknown`}; allowed: ${EXPORTS.join(', ')}`,
    );
  const pieces = await inWords(
    as === 'nmea' ? logbook.sentences(night) : logbook.export(night, as as Exclude<ExportAs, 'nmea'>),
  );
  await write(pieces, as === 'nmea' ? 'latin1' : 'utf8', out);
  return 0;
}

/** A file appears whole or not at all. */
async function write(
  pieces: AsyncIterable<string>,
  encoding: 'latin1' | 'utf8',
  out: string | undefined,
): Promise<void> {
  const bytes = Readable.from(encoded(pieces, encoding));
  if (out === undefined) return pipeline(bytes, process.stdout, { end: false });
  const draft = `${out}.part`;
  try {
    await pipeline(bytes, createWriteStream(draft));
    await rename(draft, out);
  } finally {
    await rm(draft, { force: true });
  }
}

async function* encoded(pieces: AsyncIterable<string>, encoding: 'latin1' | 'utf8'): AsyncGenerator<Buffer> {
  for await (const piece of pieces) yield Buffer.from(piece, encoding);
}
