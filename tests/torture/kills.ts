import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { State } from '../../shared/state.ts';
import { type NumberedBoat, numberedBoat } from './boat.ts';
import { createOracle, judge, type Oracle, veeredOf } from './oracle.ts';
import { ask, freePort, type Ground, layOut, start, until, type Victim, wait } from './victim.ts';

export interface Figures {
  cycles: number;
  /** Killed before it had answered once. */
  inTheStart: number;
  supervised: number;
  commandsSent: number;
  acknowledged: number;
  sentences: number;
  /** Milliseconds from the start of the process to a position on the page, the first cycle left out. */
  comesBack: Spread;
  /** Milliseconds from the first fix that the boat sent to a distance from the mark on the page, the first cycle left out. */
  watchesAgain: Spread;
  faults: string[];
}

export interface Spread {
  median: number;
  p99: number;
  most: number;
}

export interface Torture {
  cycles: number;
  script: string;
  /** Uniform in [0, 1). */
  random(): number;
  told?(text: string): void;
}

/** Kills `hawse keep` with SIGKILL at random instants under load, again and again in one data folder, and judges what is left. */
export async function killAgainAndAgain({ cycles, script, random, told }: Torture): Promise<Figures> {
  const home = mkdtempSync(join(tmpdir(), 'hawse-torture-'));
  const ground: Ground = { script, home, data: join(home, 'data'), port: await freePort() };
  const boat = await numberedBoat();
  layOut(ground, boat.port);
  const oracle = createOracle();
  const back: number[] = [];
  const watched: number[] = [];
  let read = Number.NEGATIVE_INFINITY;
  let inTheStart = 0;
  let supervised = 0;
  let shown = 0;
  let victim: Victim | undefined;
  try {
    for (let cycle = 0; cycle < cycles; cycle++) {
      const isSupervised = cycle % 10 === 9;
      if (isSupervised) supervised++;
      let isDead = false;
      let orders: Promise<void> = Promise.resolve();
      const begun = performance.now();
      const connections = boat.firsts.length;
      const sentBefore = boat.sent();
      victim = start(ground, isSupervised);
      if (cycle > 0 && random() < 0.25) {
        inTheStart++;
        await wait(random() * 900);
      } else {
        const state = await until(
          ground,
          victim,
          ({ vessel }) =>
            vessel.roller !== undefined && boat.firsts.length > connections && boat.firstFix() !== undefined,
        );
        if (!state)
          oracle.faults.push(`cycle ${cycle}: it did not come back: ${victim.errors().slice(-500)}`);
        else {
          if (cycle > 0) {
            back.push(performance.now() - begun);
            const at = boat.firstFix()!;
            const again = await until(ground, victim, (now) => watchesSince(now, at / 1000));
            if (again) watched.push(Date.now() - at);
            else oracle.faults.push(`cycle ${cycle}: it has fixes and does not watch`);
          } else if ((await ask(ground, '/mark', 'POST', {}))?.status !== 200)
            oracle.faults.push('the mark could not be set');
          checkState(oracle, cycle, state, boat.sent() - sentBefore);
          orders = giveOrders(ground, oracle, () => isDead);
          await wait(random() * 700);
          if (isSupervised) {
            process.kill(keeperOf(ground), 'SIGKILL');
            await wait(100);
            if (!(await until(ground, victim, ({ vessel }) => vessel.roller !== undefined)))
              oracle.faults.push(`cycle ${cycle}: the keeper was not started again`);
          }
        }
      }
      const keeper = isSupervised ? keeperOf(ground) : 0;
      // The kill comes on time, whatever is under way.
      victim.child.kill('SIGKILL');
      isDead = true;
      await victim.gone;
      // Below a killed process the one that keeps the watch ends by itself.
      while (isSupervised && isAlive(keeper)) await wait(20);
      await orders;
      read = await judge(oracle, ground.data, boat.firsts, read);
      for (; shown < oracle.faults.length; shown++)
        told?.(`FAULT in cycle ${cycle}: ${oracle.faults[shown]}`);
      if (cycle % 25 === 24) told?.(progress(cycle + 1, oracle));
    }
    await judgeWhole(ground, oracle, boat);
  } finally {
    victim?.child.kill('SIGKILL');
    boat.close();
    rmSync(home, { recursive: true, force: true });
  }
  return {
    cycles,
    inTheStart,
    supervised,
    commandsSent: oracle.sent,
    acknowledged: oracle.acknowledged.size,
    sentences: oracle.lines,
    comesBack: spread(back),
    watchesAgain: spread(watched),
    faults: oracle.faults,
  };
}

/** She has a place from a fix that came at `at` or later, seconds of the epoch, and it is held against the mark. */
const watchesSince = ({ vessel, watch }: State, at: number): boolean =>
  watch.distance !== undefined &&
  vessel.ages.position !== undefined &&
  vessel.at - vessel.ages.position >= at;

function spread(times: number[]): Spread {
  const inOrder = times.toSorted((a, b) => a - b);
  const at = (share: number) =>
    Math.round(inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))] ?? Number.NaN);
  return { median: at(0.5), p99: at(0.99), most: at(1) };
}

/** After a start the engine must know what the journal knows: the last order, and how many sentences there were. */
function checkState(oracle: Oracle, cycle: number, { watch, inputs }: State, sentSince: number): void {
  const last = oracle.commands.at(-1);
  if (last !== undefined && watch.veered !== veeredOf(last))
    oracle.faults.push(`cycle ${cycle}: veered is ${watch.veered}, the last order was ${veeredOf(last)}`);
  const heard = inputs.find(({ id }) => id === 'gw')?.rejected.unknown ?? 0;
  if (heard < oracle.lines || heard > oracle.lines + sentSince)
    oracle.faults.push(
      `cycle ${cycle}: ${heard} sentences counted, ${oracle.lines} in the journal, ${sentSince} since`,
    );
}

/** Gives orders, one after the other, and notes which were acknowledged and what had been heard before. */
async function giveOrders(ground: Ground, oracle: Oracle, isOver: () => boolean): Promise<void> {
  while (!isOver()) {
    const seen = await ask(ground, '/state');
    const heard = (seen?.body as Partial<State> | undefined)?.inputs?.find(({ id }) => id === 'gw');
    const number = ++oracle.sent;
    const answer = await ask(ground, '/watch', 'PATCH', { veered: veeredOf(number) });
    if (answer?.status === 200) {
      oracle.acknowledged.add(number);
      oracle.heardAtLeast = Math.max(oracle.heardAtLeast, heard?.rejected.unknown ?? 0);
    } else if (answer) oracle.faults.push(`command ${number}: ${JSON.stringify(answer)}`);
    else await wait(20);
  }
}

/** The process that keeps the watch has written its number into the lock. */
const keeperOf = ({ data }: Ground): number => {
  try {
    return (JSON.parse(readFileSync(join(data, 'lock'), 'utf8')) as { pid: number }).pid;
  } catch {
    return 0;
  }
};

function isAlive(pid: number): boolean {
  if (pid === 0) return false;
  try {
    return readFileSync(`/proc/${pid}/stat`, 'latin1').split(') ')[1]?.[0] !== 'Z';
  } catch {
    return false;
  }
}

/** All of it again from the first input on: what was there once is there still. */
async function judgeWhole({ data }: Ground, oracle: Oracle, boat: NumberedBoat): Promise<void> {
  const again = createOracle();
  again.sent = oracle.sent;
  for (const number of oracle.acknowledged) again.acknowledged.add(number);
  again.heardAtLeast = oracle.heardAtLeast;
  await judge(again, data, boat.firsts, Number.NEGATIVE_INFINITY);
  oracle.faults.push(...again.faults.map((text) => `in the end: ${text}`));
  if (again.lines !== oracle.lines || again.commands.length !== oracle.commands.length)
    oracle.faults.push(
      `in the end: ${again.lines} sentences and ${again.commands.length} commands, before ${oracle.lines} and ${oracle.commands.length}`,
    );
}

const progress = (cycle: number, { acknowledged, lines, faults }: Oracle): string =>
  `${cycle} kills: ${acknowledged.size} orders acknowledged, ${lines} sentences kept, ${faults.length} faults`;
