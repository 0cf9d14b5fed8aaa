import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../server/journal/journal.ts';
import { listSegments } from '../../server/journal/segments.ts';
import { randomStreams } from '../../server/simulate/random.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { numberedBoat } from '../torture/boat.ts';
import { fillsUp } from '../torture/disks.ts';
import { killAgainAndAgain } from '../torture/kills.ts';
import { createOracle, judge, veeredOf } from '../torture/oracle.ts';
import { freePort, layOut, start, until } from '../torture/victim.ts';

/** A small version of `npm run torture`. */
const script = fileURLToPath(new URL('../../server/hawse.mjs', import.meta.url));

test('killed 10 times at random instants under load: nothing lost, nothing doubled, it always comes back', {
  timeout: 300_000,
}, async () => {
  const figures = await killAgainAndAgain({ cycles: 10, script, random: randomStreams(7)().uniform });
  expect(figures.faults).toEqual([]);
  expect(figures.acknowledged).toBeGreaterThan(10);
  expect(figures.sentences).toBeGreaterThan(100);
  expect(figures.supervised).toBe(1);
});

test('a disk that fills up or is read-only: the watch goes on and says so', {
  timeout: 300_000,
}, async () => {
  const figures = await fillsUp(script);
  if (!figures) {
    console.log('NOT TESTED: a full and a read-only disk (no tmpfs can be mounted here)');
    return;
  }
  expect(figures.faults).toEqual([]);
  expect(figures.acknowledged).toBe(4);
});

describe('the oracle', () => {
  async function judged(
    spoil: (base: string) => void,
    acknowledged = [1, 2, 3],
    heard = 40,
  ): Promise<string[]> {
    const data = mkdtempSync(join(tmpdir(), 'hawse-oracle-'));
    const journal = await openJournal(data, { onfault: expect.unreachable, onrecovered() {} });
    let at = 1_700_000_000;
    for (let number = 1; number <= 40; number++) {
      journal.line({ kind: 'line', at: ++at, source: 'gw', text: withChecksum(`PXTN,${number}`) });
      if (number % 10 === 0)
        await journal.act({
          kind: 'command',
          at: ++at,
          by: 'this computer',
          command: { do: 'watch', change: { veered: veeredOf(number / 10) } },
        });
    }
    await journal.close();
    spoil((await listSegments(data))[0]!.base);
    const oracle = createOracle();
    oracle.sent = 4;
    for (const number of acknowledged) oracle.acknowledged.add(number);
    oracle.heardAtLeast = heard;
    await judge(oracle, data, [1], Number.NEGATIVE_INFINITY);
    rmSync(data, { recursive: true });
    return oracle.faults;
  }
  const edit = (ending: string, change: (lines: string[]) => string[]) => (base: string) => {
    const lines = readFileSync(base + ending, 'latin1')
      .trimEnd()
      .split('\n');
    writeFileSync(base + ending, `${change(lines).join('\n')}\n`, 'latin1');
  };

  test('finds nothing where nothing is wrong', async () => {
    expect(await judged(() => {})).toEqual([]);
  });

  test('finds a lost order, a lost sentence, a doubled one, an order that nobody gave', async () => {
    const lostOrder = await judged(edit('.acts.jsonl', (lines) => lines.toSpliced(1, 1)));
    expect(lostOrder).toEqual(['command 2 was acknowledged and is lost']);
    const lostLine = await judged(edit('.nmea', (lines) => lines.toSpliced(6, 1)));
    expect(lostLine).toEqual([
      'sentences 7 to 7 are lost from the middle',
      '40 sentences were safe, 39 are there',
    ]);
    const end = (at: number, number: number) => (base: string) =>
      appendFileSync(
        `${base}.acts.jsonl`,
        `${JSON.stringify({ at, kind: 'command', by: 'x', command: { do: 'watch', change: { veered: veeredOf(number) } } })}\n`,
      );
    expect(await judged(end(1_700_000_100, 4))).toEqual(['command 4 is doubled or misplaced (after 4)']);
    expect(await judged(end(1_700_000_100, 9))).toEqual(['command 9 was never sent']);
  });
});

test.each([true, false])(
  'told to stop, it says goodbye and ends well (below a supervisor: %s)',
  async (supervised) => {
    const home = mkdtempSync(join(tmpdir(), 'hawse-stop-'));
    const ground = { script, home, data: join(home, 'data'), port: await freePort() };
    const boat = await numberedBoat();
    layOut(ground, boat.port);
    const victim = start(ground, supervised);
    expect(await until(ground, victim, ({ vessel }) => vessel.roller !== undefined)).toBeDefined();
    victim.child.kill('SIGTERM');
    // Killed for being late it would end with 1.
    expect(await victim.gone).toEqual([0, null]);
    expect(existsSync(join(ground.data, 'lock'))).toBe(false);
    boat.close();
    rmSync(home, { recursive: true });
  },
);
