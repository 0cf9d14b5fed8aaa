import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { openJournal } from '../../../server/journal/journal.ts';
import { journalInputs, latestTime } from '../../../server/journal/read.ts';
import { listSegments } from '../../../server/journal/segments.ts';
import type { Input } from '../../../shared/input.ts';
import { compiled } from './compiled.ts';

const CYCLES = 24;

const numberOf = (input: Input): number => {
  if (input.kind === 'line') return Number(input.text.split(',')[1]);
  if (input.kind === 'command' && input.command.do === 'signal') return Number(input.command.signal);
  throw new Error(`an input that nobody wrote: ${JSON.stringify(input)}`);
};

test(`killed ${CYCLES} times in the middle of writing: what was confirmed is there, and nothing between is missing`, async () => {
  const { folder, script } = compiled(fileURLToPath(new URL('endless-writer.ts', import.meta.url)));
  const data = mkdtempSync(join(tmpdir(), 'hawse-killed-'));
  let last = 0;
  for (let cycle = 0; cycle < CYCLES; cycle++) {
    const start = (await latestTime(data)) ?? 1_700_000_000;
    const child = spawn(process.execPath, [script, data, `${last + 1}`, `${start}`], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    let errors = '';
    child.stderr.on('data', (text) => {
      errors += text;
    });
    await new Promise<void>((resolve, reject) => {
      child.stdout.on('data', (text) => {
        out += text;
        resolve();
      });
      child.once('exit', () => reject(new Error(`the writer ended by itself: ${errors}`)));
    });
    await new Promise((resolve) => setTimeout(resolve, (cycle * 13) % 80));
    child.kill('SIGKILL');
    await once(child, 'close');
    const confirmed = Number(out.slice(0, out.lastIndexOf('\n')).split('\n').at(-1));
    expect(errors).toBe('');
    expect(confirmed).toBeGreaterThan(last);

    const journal = await openJournal(data, { onfault: expect.unreachable, onrecovered: () => undefined });
    const { state, at, inputs } = await journal.restore();
    let next = state === undefined ? 1 : (state as { number: number }).number + 1;
    let time = at ?? 0;
    for await (const input of inputs) {
      expect(numberOf(input)).toBe(next++);
      expect(input.at).toBeGreaterThan(time);
      time = input.at;
    }
    await journal.close();
    last = next - 1;
    expect(last).toBeGreaterThanOrEqual(confirmed);

    // A power cut, unlike a kill, may also leave half a record.
    if (cycle % 3 === 0)
      appendFileSync(`${(await listSegments(data)).at(-1)!.base}.nmea`, '\\s:udp1,c:1700000');
  }
  // All of it, from the first input on, without any checkpoint.
  let next = 1;
  for await (const input of journalInputs(data)) expect(numberOf(input)).toBe(next++);
  expect(next - 1).toBe(last);
  rmSync(data, { recursive: true });
  rmSync(folder, { recursive: true });
});
