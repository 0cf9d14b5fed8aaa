import type { Alert } from '../../shared/alerts/alert.ts';
import type { Wanted } from './escalation.ts';
import { type Health, type Output, pause } from './output.ts';
import type { Argv, CommandOutput } from './outputs.ts';
import { type Child, findProgram, startChild } from './process.ts';

/** Milliseconds; changed by tests only. */
export interface HookTiming {
  /** A sounding command that has run for this long works. */
  settles: number;
  /** Pause before one that ended by itself, well or ill, is started again. */
  again: number;
  afterFailure: number;
  /** From SIGTERM to SIGKILL. */
  grace: number;
  /** How long a test sounds. */
  test: number;
}

const TIMING: HookTiming = { settles: 1000, again: 1000, afterFailure: 5000, grace: 2000, test: 2000 };

/**
 * A relay or loudspeaker behind a command. One loop brings what is so in line with what is wanted, so that the command is never
 * run twice at once, and a command that hangs or fails is tried again for as long as it is wanted.
 */
export function createHook(
  config: CommandOutput,
  boat: string,
  health: Health,
  told?: Partial<HookTiming>,
): Output {
  const timing = { ...TIMING, ...told };
  let sounding: readonly Alert[] = [];
  let isTested = false;
  let isStopped = false;
  /** Wakes the loop out of a pause; without a loop, nothing. */
  let wake = () => {};
  let running: Promise<void> = Promise.resolve();
  const afterWork: ((why: string | undefined) => void)[] = [];

  const isWanted = () => !isStopped && (isTested || sounding.length > 0);
  const idle = (ms: number): Promise<void> =>
    new Promise((resolve) => {
      const timer = setTimeout(resolve, ms);
      wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  const untilWoken = () =>
    new Promise<void>((resolve) => {
      wake = resolve;
    });

  function report(why: string | undefined): void {
    if (why === undefined) health.ok();
    else health.failed(why);
    for (const tell of afterWork.splice(0)) tell(why);
  }
  /** The loop has nothing to do any more: whoever waits for the end of the work need not wait for a word. */
  function atRest(): void {
    for (const tell of afterWork.splice(0)) tell(undefined);
  }
  const worked = () => new Promise<string | undefined>((resolve) => void afterWork.push(resolve));

  /** Sounds while it runs. */
  async function keepRunning(argv: Argv): Promise<void> {
    while (!isStopped) {
      if (!isWanted()) {
        atRest();
        await untilWoken();
        continue;
      }
      const child = startChild(argv, environment(sounding, boat, isTested));
      let fault: string | undefined;
      let isOver = false;
      const over = child.ended.then((why) => {
        fault = why;
        isOver = true;
        wake();
      });
      await idle(timing.settles);
      if (!isOver && isWanted()) report(undefined);
      while (!isOver && isWanted()) await untilWoken();
      if (!isOver) {
        const isEnded = await child.end(timing.grace);
        if (!isEnded) report(`${argv[0]} cannot be ended: it may still sound`);
        continue;
      }
      await over;
      await child.end(0);
      report(fault);
      if (isWanted()) await idle(fault === undefined ? timing.again : timing.afterFailure);
    }
  }

  /** One command switches on, another off; which of them worked last is what is so. */
  async function keepSwitched(on: Argv, off: Argv, limitMs: number): Promise<void> {
    let is: boolean | undefined;
    let isOffFailing = false;
    for (;;) {
      const wanted = isWanted();
      if (is === wanted) {
        if (isStopped) return;
        if (!wanted) atRest();
        await untilWoken();
        continue;
      }
      const fault = await runToEnd(wanted ? on : off, limitMs);
      is = fault === undefined ? wanted : undefined;
      // That it can be switched off says nothing of a horn that could not be switched on.
      if (wanted || fault !== undefined || isOffFailing) report(fault);
      if (!wanted) isOffFailing = fault !== undefined;
      if (fault === undefined) continue;
      // At the very end one more try is all there is time for.
      if (isStopped) return;
      await idle(timing.afterFailure);
    }
  }

  async function runToEnd(argv: Argv, limitMs: number): Promise<string | undefined> {
    const child: Child = startChild(argv, environment(sounding, boat, isTested));
    let isLate = false;
    const timer = setTimeout(() => {
      isLate = true;
      child.kill();
    }, limitMs);
    const late = pause(limitMs + timing.grace).then(() => 'hangs');
    const fault = await Promise.race([child.ended, late]);
    clearTimeout(timer);
    return isLate ? `${argv[0]} had not ended after ${limitMs / 1000} s and was killed` : fault;
  }

  return {
    what: 'run' in config ? config.run[0] : config.on[0],
    start() {
      // That it is there is all that can be known without a noise.
      void findProgram('run' in config ? config.run[0] : config.on[0]).then(
        (why) => why && health.failed(why),
      );
      running =
        'run' in config ? keepRunning(config.run) : keepSwitched(config.on, config.off, config.limit * 1000);
    },
    show(wanted: Wanted) {
      const was = isWanted();
      sounding = wanted.sounding;
      if (isWanted() !== was) wake();
    },
    on: isWanted,
    async test() {
      if (isWanted()) return 'It is sounding already.';
      isTested = true;
      const started = worked();
      wake();
      const fault = await started;
      if (fault === undefined) await pause(timing.test);
      isTested = false;
      // An alert that has come meanwhile goes on sounding; so does a test that failed end without another word.
      const ended = fault === undefined && !isWanted() ? worked() : undefined;
      wake();
      const why = fault ?? (await ended);
      if (why !== undefined) throw new Error(why);
      return 'It sounded, and ended.';
    },
    async stop() {
      isStopped = true;
      wake();
      await running;
    },
  };
}

/** What the command is told. Text may hold anything but NUL, which no environment can carry. */
function environment(sounding: readonly Alert[], boat: string, isTest: boolean): Record<string, string> {
  const first = sounding[0];
  const told: Record<string, string | number | undefined> = {
    HAWSE_BOAT: boat,
    HAWSE_ALERTS: sounding.length,
    HAWSE_TEST: isTest ? 1 : undefined,
    HAWSE_ALERT_ID: first?.id,
    HAWSE_ALERT_KIND: first?.kind,
    HAWSE_ALERT_PRIORITY: first?.priority,
    HAWSE_ALERT_TEXT: first?.text,
    HAWSE_ALERT_SINCE: first?.since,
  };
  return Object.fromEntries(
    Object.entries(told).flatMap(([name, value]) =>
      value === undefined ? [] : [[name, String(value).replaceAll('\0', ' ')]],
    ),
  );
}
