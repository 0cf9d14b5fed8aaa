import { expect, test } from 'vitest';
import { playInto } from '../../../server/simulate/play.ts';
import { createSimulator } from '../../../server/simulate/simulator.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { named } from './help.ts';

/** A clock and a timer in the test's hand. */
function stage(seed = 1) {
  const scenario = named('quiet-night');
  const clock = { now: scenario.start.at };
  const lines: { at: number; text: string }[] = [];
  let look = () => {};
  let running = true;
  const simulator = createSimulator(scenario, seed);
  const player = playInto(simulator, {
    now: () => clock.now,
    line: (text) => lines.push({ at: clock.now, text }),
    every: (_, run) => {
      look = run;
      return () => {
        running = false;
      };
    },
  });
  return {
    scenario,
    simulator,
    lines,
    player,
    look: (seconds: number) => {
      clock.now += seconds;
      if (running) look();
    },
  };
}

/** UTC that an RMC tells, seconds of the day. */
function utc(text: string): number | undefined {
  const decoded = decode(text, { requireChecksum: true });
  const time = decoded.ok && decoded.id === 'RMC' && decoded.observations.find((one) => one.kind === 'time');
  return time ? time.timeOfDay : undefined;
}

test.each([0.05, 0.37, 5, 10])('follows the clock without drift when it is looked at every %f s', (every) => {
  const { scenario, lines, look } = stage();
  for (let t = 0; t < 1800; t += every) look(every);
  const fixes = lines.flatMap(({ at, text }) => {
    const told = utc(text);
    return told === undefined
      ? []
      : [{ at, behind: at - scenario.start.at - (told - (scenario.start.at % 86_400)) }];
  });
  expect(fixes.length).toBeGreaterThan(1795 - every);
  for (const { behind } of fixes) {
    expect(behind).toBeGreaterThan(0);
    expect(behind).toBeLessThanOrEqual(every + 0.2);
  }
});

test('no sentence is lost or comes twice: the lines are those of the simulator, in order', () => {
  const { lines, look } = stage(9);
  for (let t = 0; t < 60; t += 0.13) look(0.13);
  const alone = createSimulator(named('quiet-night'), 9);
  alone.step(70);
  const texts = alone.sentences().map(({ text }) => text);
  expect(lines.map(({ text }) => text)).toEqual(texts.slice(0, lines.length));
});

test('after a suspended computer it catches up in bites of a minute', () => {
  const { simulator, scenario, look } = stage();
  look(1);
  look(600);
  expect(simulator.truth().at - scenario.start.at).toBeCloseTo(61, 5);
  for (let i = 0; i < 10; i++) look(0.05);
  expect(simulator.truth().at - scenario.start.at).toBeGreaterThan(601);
});

test('says nothing after it was stopped', async () => {
  const { lines, look, player } = stage();
  look(10);
  await player.stop();
  const before = lines.length;
  look(10);
  expect(before).toBeGreaterThan(0);
  expect(lines).toHaveLength(before);
});

test('runs on the process’s own timer when none is given, and lets it go', async () => {
  const scenario = named('quiet-night');
  const started = performance.now();
  const lines: string[] = [];
  await new Promise<void>((resolve) => {
    const player = playInto(createSimulator(scenario, 1), {
      now: () => scenario.start.at + ((performance.now() - started) / 1000) * 100,
      line(text) {
        lines.push(text);
        if (lines.length === 50) void player.stop().then(resolve);
      },
    });
  });
  expect(lines.length).toBeGreaterThanOrEqual(50);
});
