import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { createHook, type HookTiming } from '../../../server/raise/hook.ts';
import type { Output } from '../../../server/raise/output.ts';
import type { CommandOutput } from '../../../server/raise/outputs.ts';
import { alertOf, listen, until } from './help.ts';

/** Real scripts in real processes; only the pauses are shorter. */
const TIMING: Partial<HookTiming> = { settles: 60, again: 40, afterFailure: 60, grace: 150, test: 60 };
const QUIET = { tell: [], sounding: [] };
const MOMENT = { alerts: [], at: 0, clockOffset: 0 };
const loud = () => {
  const alert = alertOf('drag', { text: 'dragging; $(rm -rf /) "quoted"' });
  return { tell: [alert], sounding: [alert] };
};

let folder: string;
const hooks: Output[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'hawse-horn-'));
});
afterEach(async () => {
  await Promise.all(hooks.splice(0).map((hook) => hook.stop()));
  rmSync(folder, { recursive: true, force: true });
});

function script(name: string, body: string): string {
  const file = join(folder, name);
  writeFileSync(file, `#!/bin/sh\ncd '${folder}'\n${body}\n`);
  chmodSync(file, 0o755);
  return file;
}
const said = (): string[] => {
  const file = join(folder, 'said');
  return existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : [];
};
const isAlive = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    // A zombie that init has not yet collected is dead.
    return !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, 'utf8'));
  } catch {
    return false;
  }
};
type Way = { run: [string, ...string[]] } | { on: [string]; off: [string]; limit?: number };
function hook(way: Way) {
  const health = listen();
  const config = {
    id: 'horn',
    kind: 'command',
    after: { alarm: 0 },
    atOnceWithoutPhone: true,
    ...('run' in way ? way : { limit: 5, ...way }),
  } as CommandOutput;
  const made = createHook(config, 'Test Petrel', health, TIMING);
  hooks.push(made);
  made.start();
  return { health, hook: made };
}

describe('a command that sounds while it runs', () => {
  const RUNS = "echo $$ >> said; trap 'echo ended >> said; exit 0' TERM; while :; do sleep 0.02; done";

  test('runs while it is wanted, and is ended when it is not', async () => {
    const { hook: horn, health } = hook({ run: [script('horn', RUNS)] });
    horn.show(loud(), MOMENT);
    expect(horn.on()).toBe(true);
    await until(() => health.words.includes('ok'));
    const [pid] = said();
    expect(isAlive(Number(pid))).toBe(true);
    horn.show(QUIET, MOMENT);
    await until(() => said().includes('ended'));
    await until(() => !isAlive(Number(pid)));
    expect(health.words.every((word) => word === 'ok')).toBe(true);
    expect(horn.on()).toBe(false);
  });

  test('is told the alert in its environment, and no shell reads it', async () => {
    const { hook: horn } = hook({
      run: [
        script(
          'horn',
          'echo "$HAWSE_BOAT|$HAWSE_ALERT_KIND|$HAWSE_ALERT_PRIORITY|$HAWSE_ALERT_TEXT|$1" >> said; sleep 9',
        ),
        '$(date)',
      ],
    });
    horn.show(loud(), MOMENT);
    await until(() => said().length > 0);
    expect(said()[0]).toBe('Test Petrel|drag|alarm|dragging; $(rm -rf /) "quoted"|$(date)');
  });

  test('one that ignores SIGTERM, and what it has started, are killed', async () => {
    const stubborn =
      "trap '' TERM; (trap '' TERM; sleep 30) & echo $$ $! >> said; while :; do sleep 0.02; done";
    const { hook: horn, health } = hook({ run: [script('horn', stubborn)] });
    horn.show(loud(), MOMENT);
    await until(() => said().length > 0 && health.words.includes('ok'));
    const pids = said()[0]!.split(' ').map(Number);
    horn.show(QUIET, MOMENT);
    await until(() => !pids.some(isAlive));
  });

  test('one that crashes is a failure in its own words, and is tried again while it is wanted', async () => {
    const { hook: horn, health } = hook({
      run: [script('horn', 'echo x >> said; echo no such relay >&2; exit 3')],
    });
    horn.show(loud(), MOMENT);
    await until(() => said().length >= 3);
    expect(health.words[0]).toMatch(/^failed: .*horn ended with 3: no such relay$/);
    horn.show(QUIET, MOMENT);
  });

  test('one that plays once and ends well is played again', async () => {
    const { hook: horn, health } = hook({ run: [script('horn', 'echo x >> said')] });
    horn.show(loud(), MOMENT);
    await until(() => said().length >= 3);
    expect(health.words).not.toContainEqual(expect.stringMatching(/^failed/));
  });

  test('killed from outside it comes back', async () => {
    const { hook: horn, health } = hook({ run: [script('horn', RUNS)] });
    horn.show(loud(), MOMENT);
    await until(() => health.words.includes('ok'));
    process.kill(Number(said()[0]), 'SIGKILL');
    await until(() => said().length >= 2);
    expect(health.words).toContainEqual(expect.stringMatching(/failed: .*ended by SIGKILL/));
  });

  test('a program that is not there is told at the start, before any alarm; one that may not be run too', async () => {
    const { health } = hook({ run: [join(folder, 'nothing')] });
    await until(() => health.words.length > 0);
    expect(health.words[0]).toMatch(/there is no program .*nothing/);
    const file = script('horn', '');
    chmodSync(file, 0o644);
    const other = hook({ run: [file] });
    await until(() => other.health.words.length > 0);
    expect(other.health.words[0]).toMatch(/may not be run by this user/);
    const missing = hook({ run: ['no-such-program-of-hawse'] });
    missing.hook.show(loud(), MOMENT);
    await until(() => missing.health.words.length > 1);
    expect(missing.health.words.at(-1)).toMatch(/there is no program no-such-program-of-hawse/);
  });

  test('the test sounds and ends, and says what failed', async () => {
    const { hook: horn } = hook({ run: [script('horn', `echo "test $HAWSE_TEST" >> said; ${RUNS}`)] });
    await expect(horn.test(MOMENT)).resolves.toBe('It sounded, and ended.');
    expect(said()[0]).toBe('test 1');
    await until(() => said().includes('ended'));
    expect(horn.on()).toBe(false);
    const once = hook({ run: [script('once', 'exit 0')] });
    await expect(once.hook.test(MOMENT)).resolves.toBe('It sounded, and ended.');
    const bad = hook({ run: [script('bad', 'exit 4')] });
    await expect(bad.hook.test(MOMENT)).rejects.toThrow(/ended with 4/);
    // A failed test leaves no horn behind that is tried for ever.
    expect(bad.hook.on()).toBe(false);
  });

  test('an alarm that comes during a test goes on sounding', async () => {
    const { hook: horn, health } = hook({ run: [script('horn', RUNS)] });
    const tested = horn.test(MOMENT);
    await until(() => said().length > 0);
    horn.show(loud(), MOMENT);
    await tested;
    expect(horn.on()).toBe(true);
    expect(said()).toHaveLength(1);
    expect(isAlive(Number(said()[0]))).toBe(true);
    expect(health.words.every((word) => word === 'ok')).toBe(true);
    await expect(horn.test(MOMENT)).resolves.toMatch(/already/);
  });

  test('stopping the daemon silences it', async () => {
    const { hook: horn, health } = hook({ run: [script('horn', RUNS)] });
    horn.show(loud(), MOMENT);
    await until(() => health.words.includes('ok'));
    const pid = Number(said()[0]);
    await horn.stop();
    expect(isAlive(pid)).toBe(false);
  });
});

describe('a relay that is switched on and off', () => {
  const switched = () =>
    said()
      .filter((word) => word !== '')
      .join(' ');
  const relay = (): Way => ({
    on: [script('on', 'echo on >> said')],
    off: [script('off', 'echo off >> said')],
  });

  test('is off from the start: an earlier run may have died with it on', async () => {
    const { health } = hook(relay());
    await until(() => said().length > 0);
    expect(switched()).toBe('off');
    // Which does not show that it can be switched on.
    expect(health.words).toEqual([]);
  });

  test('is switched once each way, however often it is looked at', async () => {
    const { hook: horn } = hook(relay());
    await until(() => said().length === 1);
    for (let i = 0; i < 5; i++) horn.show(loud(), MOMENT);
    await until(() => said().length === 2);
    for (let i = 0; i < 5; i++) horn.show(QUIET, MOMENT);
    await until(() => said().length === 3);
    expect(switched()).toBe('off on off');
  });

  test('a command that hangs is killed, told, and tried again; the daemon goes on meanwhile', async () => {
    const { hook: horn, health } = hook({
      on: [script('on', 'echo try >> said; if [ -e works ]; then exit 0; fi; sleep 30')],
      off: [script('off', 'exit 0')],
      limit: 0.15,
    });
    horn.show(loud(), MOMENT);
    await until(() => health.words.some((word) => /had not ended after 0.15 s and was killed/.test(word)));
    writeFileSync(join(folder, 'works'), '');
    await until(() => health.words.at(-1) === 'ok');
  });

  test('a relay that cannot be switched off is a failure, and is tried again', async () => {
    const { hook: horn, health } = hook({
      on: [script('on', 'echo on >> said')],
      off: [script('off', 'if [ -e stuck ]; then exit 1; fi; echo off >> said')],
    });
    await until(() => said().length === 1);
    writeFileSync(join(folder, 'stuck'), '');
    horn.show(loud(), MOMENT);
    await until(() => said().length === 2);
    horn.show(QUIET, MOMENT);
    await until(() => health.words.some((word) => /off ended with 1/.test(word)));
    rmSync(join(folder, 'stuck'));
    await until(() => said().at(-1) === 'off' && health.words.at(-1) === 'ok');
    expect(switched()).toBe('off on off');
  });

  test('a program that is not there is told at the start', async () => {
    const { health } = hook({ on: [join(folder, 'nothing')], off: [script('off', 'exit 0')] });
    await until(() => health.words.length > 0);
    expect(health.words[0]).toMatch(/there is no program .*nothing/);
  });

  test('the test switches on and off', async () => {
    const { hook: horn } = hook(relay());
    await expect(horn.test(MOMENT)).resolves.toBe('It sounded, and ended.');
    expect(switched()).toMatch(/on off$/);
  });

  test('stopping the daemon leaves it off', async () => {
    const { hook: horn } = hook(relay());
    horn.show(loud(), MOMENT);
    await until(() => said().includes('on'));
    await horn.stop();
    expect(said().at(-1)).toBe('off');
  });
});
