import { createHash } from 'node:crypto';
import type { Checksum, NightSummary } from '../../shared/logbook/night.ts';
import type { Recorded } from './recorded.ts';
import { journalOf } from './relive.ts';

/** SHA-256 of the recorded sentences of a closed night, segment by segment, over the very bytes that `sentencesOf` gives. */
export async function checksumsOf(
  data: string,
  recorded: Recorded,
  night: NightSummary & { to: number },
): Promise<Checksum[]> {
  const checksums: Checksum[] = [];
  for await (const { segment, from, to, lines, text } of recorded.sentences(
    journalOf(data, night),
    night.from,
    night.to,
  )) {
    const bytes = Buffer.from(text, 'latin1');
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    checksums.push({ segment, from, to, lines, bytes: bytes.length, sha256 });
    await new Promise((resolve) => setImmediate(resolve));
  }
  return checksums;
}
