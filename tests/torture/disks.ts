import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Alert } from '../../shared/alerts/alert.ts';
import type { State } from '../../shared/state.ts';
import { numberedBoat } from './boat.ts';
import { createOracle, judge, veeredOf } from './oracle.ts';
import { ask, freePort, type Ground, layOut, start, until, type Victim, wait } from './victim.ts';

export interface DiskFigures {
  /** What was seen, in order. */
  seen: string[];
  acknowledged: number;
  sentences: number;
  faults: string[];
}

const SIZE = '64m';
const active = ({ alerts }: State, kind: Alert['kind'], subject?: string): boolean =>
  alerts.some(
    (alert) =>
      alert.kind === kind &&
      alert.state.startsWith('active') &&
      (subject === undefined || alert.subject === subject),
  );

/**
 * A disk of its own (tmpfs) that becomes full, then read-only, under a running watch and under one that starts on it. The watch goes on,
 * the alert comes and goes, orders are not confirmed meanwhile, and what was is there. Undefined when nothing can be mounted here.
 */
export async function fillsUp(script: string): Promise<DiskFigures | undefined> {
  const home = mkdtempSync(join(tmpdir(), 'hawse-disk-'));
  const disk = join(home, 'disk');
  mkdirSync(disk);
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${SIZE}`, 'hawse-torture', disk]).status !== 0) {
    rmSync(home, { recursive: true });
    return undefined;
  }
  const ground: Ground = { script, home, data: join(disk, 'data'), port: await freePort() };
  const boat = await numberedBoat();
  layOut(ground, boat.port);
  const oracle = createOracle();
  const seen: string[] = [];
  let victim: Victim | undefined;

  async function order(): Promise<number | undefined> {
    const number = ++oracle.sent;
    const answer = await ask(ground, '/watch', 'PATCH', { veered: veeredOf(number) });
    if (answer?.status === 200) oracle.acknowledged.add(number);
    return answer?.status;
  }
  async function expectState(what: string, holds: (state: State) => boolean): Promise<void> {
    const came = await until(ground, victim!, (state) => state.vessel.roller !== undefined && holds(state));
    if (came) seen.push(what);
    else {
      const now = (await ask(ground, '/state'))?.body as State | undefined;
      oracle.faults.push(
        `never: ${what}; alerts ${JSON.stringify(now?.alerts)}; ${victim!.errors().slice(-400)}`,
      );
    }
  }
  async function expectOrders(wanted: 'confirmed' | 'not confirmed', where: string): Promise<void> {
    const status = await order();
    if ((status === 200) === (wanted === 'confirmed')) seen.push(`an order is ${wanted} ${where}`);
    else oracle.faults.push(`an order ${where}: status ${status}`);
  }
  const remount = (how: string) => spawnSync('mount', ['-o', `remount,${how}`, disk]).status === 0;
  const begin = () => {
    victim = start(ground, false);
  };
  const kill = async () => {
    victim!.child.kill('SIGKILL');
    await victim!.gone;
  };

  try {
    begin();
    await expectState('it watches', () => true);
    await expectOrders('confirmed', 'on a good disk');

    fill(join(disk, 'other'));
    await expectState('a full disk: the alarm, and the watch goes on', (state) =>
      active(state, 'disk', 'host'),
    );
    await expectState('a full disk: the warning of too little room', (state) =>
      active(state, 'disk', 'room'),
    );
    await expectOrders('not confirmed', 'on a full disk');
    rmSync(join(disk, 'other'));
    await expectState('room again: the alarm ends', (state) => !active(state, 'disk', 'host'));
    await expectOrders('confirmed', 'with room again');

    fill(join(disk, 'other'));
    await expectState('full again', (state) => active(state, 'disk', 'host'));
    await kill();
    begin();
    await expectState('started on a full disk: it watches, with the alarm', (state) =>
      active(state, 'disk', 'host'),
    );
    rmSync(join(disk, 'other'));
    await expectState('room again', (state) => !active(state, 'disk', 'host'));
    await expectOrders('confirmed', 'after a start on a full disk');
    await kill();

    begin();
    await expectState('it watches', () => true);
    // A file that is open for writing keeps a disk from becoming read-only: only a dead watch has none.
    await kill();
    if (!remount('ro')) oracle.faults.push('the disk could not be made read-only');
    begin();
    await expectState('started on a read-only disk: it watches, with the alarm', (state) =>
      active(state, 'disk', 'host'),
    );
    await expectOrders('not confirmed', 'on a read-only disk');
    remount('rw');
    await expectState('writable again: the alarm ends', (state) => !active(state, 'disk', 'host'));
    await expectOrders('confirmed', 'when it can be written again');
    await wait(300);
    await kill();
    await judge(oracle, ground.data, boat.firsts, Number.NEGATIVE_INFINITY);
  } finally {
    victim?.child.kill('SIGKILL');
    await victim?.gone;
    boat.close();
    spawnSync('umount', [disk]);
    rmSync(home, { recursive: true, force: true });
  }
  return {
    seen,
    acknowledged: oracle.acknowledged.size,
    sentences: oracle.lines,
    faults: oracle.faults,
  };
}

/** Writes until nothing more goes in. */
function fill(path: string): void {
  const file = openSync(path, 'w');
  for (let size = 1024 * 1024; size >= 1; ) {
    try {
      writeSync(file, Buffer.alloc(size));
    } catch {
      size >>= 1;
    }
  }
  closeSync(file);
}
