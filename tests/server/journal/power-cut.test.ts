import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../../server/journal/journal.ts';
import type { Input } from '../../../shared/input.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { compiled } from './compiled.ts';
import { cutDisk } from './cut-disk.ts';

const T = 1_700_000_000;

describe('a power cut', () => {
  test('property: what was confirmed is there, in order, none twice, and the journal can be opened and go on', async () => {
    let confirmedInAll = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 2 ** 31 - 1 }),
        fc.integer({ min: 0, max: 400 }),
        async (seed, turns) => {
          const random = generator(seed);
          const data = mkdtempSync(join(tmpdir(), 'hawse-cut-'));
          try {
            const disk = cutDisk();
            const journal = await openJournal(
              data,
              { onfault() {}, onrecovered() {} },
              { disk, retry: 1, patience: 50 },
            );
            const given: Input[] = [];
            const confirmed: Input[] = [];
            let isCut = false;
            const writing = (async () => {
              for (let i = 0; i < 400 && !isCut; i++) {
                const at = T + i * 20;
                if (i % 5 === 0) {
                  const act: Input & { kind: 'command' } = {
                    kind: 'command',
                    at,
                    by: 'Mia',
                    command: { do: 'signal', signal: `${i}` },
                  };
                  given.push(act);
                  // Everything before a confirmed order is safe with it.
                  const before = given.slice();
                  await journal
                    .act(act)
                    .then(() => confirmed.splice(0, confirmed.length, ...before))
                    .catch(() => {});
                } else {
                  const line: Input & { kind: 'line' } = {
                    kind: 'line',
                    at,
                    source: 'a',
                    text: withChecksum(`PXTN,${i}`),
                  };
                  given.push(line);
                  journal.line(line);
                }
                if (i % 50 === 49) void journal.checkpoint({ upTo: at }, at);
                if (random() < 0.3) await new Promise((resolve) => setImmediate(resolve));
              }
            })();
            for (let i = 0; i < turns; i++) await new Promise((resolve) => setImmediate(resolve));
            disk.cut(random);
            isCut = true;
            const sure = confirmed.slice();
            await writing;
            await journal.close();

            const again = await openJournal(data, { onfault: expect.unreachable, onrecovered() {} });
            const { state, at = 0, inputs } = await again.restore();
            const found: Input[] = [];
            for await (const input of inputs) found.push(input);
            const expected = sure.filter((input) => input.at > at);
            const givenAt = new Map(given.map((input) => [input.at, input]));
            for (const input of found) if (!isNoise(input)) expect(input).toEqual(givenAt.get(input.at));
            for (let i = 1; i < found.length; i++) expect(found[i]!.at).toBeGreaterThan(found[i - 1]!.at);
            const isFound = new Set(found.map((input) => input.at));
            for (const input of expected) expect(isFound.has(input.at)).toBe(true);
            if (state) expect((state as { upTo: number }).upTo).toBe(at);
            await again.act({ kind: 'link', at: T + 1e6, source: 'a', up: true, detail: 'goes on' });
            await again.close();
            confirmedInAll += sure.length;
          } finally {
            rmSync(data, { recursive: true, force: true });
          }
        },
      ),
      { numRuns: 25 },
    );
    expect(confirmedInAll).toBeGreaterThan(300);
  });

  test('the real disk is asked to sync files, and folders too when names are new (seen by strace)', () => {
    if (spawnSync('strace', ['-V']).status !== 0) {
      console.log('NOT TESTED: fsync of folders (strace is not here)');
      return;
    }
    const { folder, script } = compiled(fileURLToPath(new URL('short-writer.ts', import.meta.url)));
    const data = mkdtempSync(join(tmpdir(), 'hawse-fsync-'));
    const trace = join(folder, 'trace');
    const done = spawnSync(
      'strace',
      ['-f', '-y', '-e', 'trace=fsync,fdatasync,rename', '-o', trace, process.execPath, script, data],
      { encoding: 'utf8' },
    );
    if (done.status !== 0 && /PTRACE|Operation not permitted/.test(done.stderr)) {
      console.log('NOT TESTED: fsync of folders (strace may not trace here)');
      return;
    }
    expect(done.stderr).toBe('');
    const calls = readFileSync(trace, 'utf8');
    const day = readdirSync(join(data, 'journal')).find((name) => /^\d{4}-/.test(name))!;
    const synced = (what: string) => new RegExp(`f(data)?sync\\(\\d+<${what}>`).test(calls);
    expect(synced(`${data}/journal/${day}/[^>]*\\.nmea`)).toBe(true);
    expect(synced(`${data}/journal/${day}/[^>]*\\.acts\\.jsonl`)).toBe(true);
    expect(synced(`${data}/journal/${day}`)).toBe(true);
    expect(synced(`${data}/journal`)).toBe(true);
    // A checkpoint: its draft is synced before it gets its name, and the folder after.
    const draft = calls.search(/fsync\(\d+<[^>]*checkpoint-[^>]*\.tmp>/);
    const renamed = calls.search(/rename\("[^"]*checkpoint-[^"]*\.tmp"/);
    const folderAfter = calls.slice(renamed).search(new RegExp(`fsync\\(\\d+<${data}/journal>`));
    expect(draft).toBeGreaterThanOrEqual(0);
    expect(renamed).toBeGreaterThan(draft);
    expect(folderAfter).toBeGreaterThan(0);
    rmSync(data, { recursive: true });
    rmSync(folder, { recursive: true });
  });
});

/** A torn line may be there with its time and a part of its text: its own checksum tells, as with any noise. */
const isNoise = (input: Input): boolean =>
  input.kind === 'line' && withChecksum(input.text.slice(1, input.text.lastIndexOf('*'))) !== input.text;

function generator(seed: number): () => number {
  let state = seed;
  return () => {
    // Park and Miller's minimal standard generator [F].
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
