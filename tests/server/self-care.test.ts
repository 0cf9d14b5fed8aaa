import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { createDiskWatch } from '../../server/disk-watch.ts';
import { downtime, isTold, RESTART } from '../../server/downtime.ts';
import { createClockWatch } from '../../server/host-clock.ts';
import { POLICY, type Present } from '../../server/journal/retention.ts';
import { createMishaps } from '../../server/mishaps.ts';
import { createTimeline } from '../../server/timeline.ts';
import { createEngine, type EngineState, step } from '../../shared/engine.ts';

const T = 1_700_000_000;
const DAY = 86_400;
const engine = (): EngineState => createEngine(toSettings(commonBoat()));

describe('after a restart', () => {
  test('a gap at anchor is told with its length and reason; without a mark nobody was to watch', () => {
    expect(downtime({ last: T, tidy: false }, T + 754, 'watching')).toEqual({
      priority: 'warning',
      text: "Nobody watched for 13 min from 22:13:20 UTC, by this computer's clock: hawse ended without a goodbye (power cut, crash or kill). The watch is on again.",
    });
    expect(downtime({ last: T, tidy: true }, T + 754, 'weighing')).toMatchObject({ priority: 'caution' });
    expect(downtime({ last: T, tidy: false }, T + 4, 'watching')).toMatchObject({ priority: 'caution' });
    expect(downtime({ last: T, tidy: false, ended: 'it stood still' }, T + 4, 'watching')?.text).toContain(
      'it stood still',
    );
    expect(downtime({ last: T, tidy: false }, T + 754, 'no-mark')).toBeUndefined();
    expect(downtime({ last: undefined, tidy: true }, T, 'watching')).toBeUndefined();
  });

  test('it goes when somebody has acknowledged it, and before an unanswered warning would become an alarm', () => {
    const state = engine();
    const at = (seconds: number) => T + seconds;
    const fault = {
      kind: 'fault',
      alert: 'daemon',
      subject: RESTART,
      raised: true,
      priority: 'warning',
      text: 'x',
    } as const;
    step(state, { ...fault, at: at(0) });
    expect(isTold(state, at(0), at(1))).toBe(false);
    expect(isTold(state, at(0), at(299))).toBe(true);
    const { id } = state.alerts.held[0]!.alert;
    step(state, { kind: 'command', at: at(2), by: 'Mia', command: { do: 'acknowledge', alert: id } });
    expect(isTold(state, at(0), at(3))).toBe(true);
  });
});

describe("the computer's clock", () => {
  function watched(wallAt: number, from = wallAt) {
    const clocks = { wall: wallAt, monotonic: 50, boot: 80 };
    const timeline = createTimeline(from, 1, { monotonic: () => clocks.monotonic });
    const told: { alert: string; raised: boolean; text: string; priority: string }[] = [];
    const watch = createClockWatch(
      { wall: () => clocks.wall, monotonic: () => clocks.monotonic, sinceBoot: () => clocks.boot },
      { timeline, tell: (fault) => void told.push(fault) },
    );
    return {
      clocks,
      timeline,
      told,
      /** Time passes; the wall clock may be set, the computer may sleep. */
      pass(seconds: number, { set = 0, sleep = 0 } = {}) {
        clocks.wall += seconds + set + sleep;
        clocks.monotonic += seconds;
        clocks.boot += seconds + sleep;
        watch.look();
      },
    };
  }

  test('set forward, as by the first fix on a computer without clock battery: told, the timeline goes on as it was', () => {
    const { pass, told, timeline } = watched(0, 0);
    pass(10);
    expect(told).toEqual([]);
    pass(1, { set: T });
    expect(told).toMatchObject([{ alert: 'clock', raised: true, priority: 'caution' }]);
    expect(told[0]!.text).toContain('set forward by 19676 days');
    expect(timeline.now()).toBe(11);
    pass(10);
    expect(told).toHaveLength(1);
  });

  test('set back: told, no time is repeated; set right again: it ends', () => {
    const { pass, told, timeline } = watched(T);
    const before = timeline.stamp();
    pass(1, { set: -3600 });
    expect(told[0]).toMatchObject({ alert: 'clock', raised: true });
    expect(told[0]!.text).toContain('60 min behind the log');
    expect(timeline.stamp()).toBeGreaterThan(before);
    pass(1, { set: 3600 });
    expect(told[1]).toMatchObject({ alert: 'clock', raised: false });
  });

  test('behind the log at the start (no clock battery): the log goes on in order', () => {
    const { pass, told, timeline } = watched(0, T);
    pass(1);
    expect(told[0]!.text).toContain('behind the log');
    expect(timeline.now()).toBe(T + 1);
  });

  test('a leap second, and a slew, mislead nobody and are not told', () => {
    const { pass, told } = watched(T);
    pass(1, { set: -1 });
    for (let i = 0; i < 100; i++) pass(1, { set: 0.03 });
    expect(told).toEqual([]);
  });

  test('the computer slept: an alarm, and what was heard before is old', () => {
    const { pass, told, timeline } = watched(T);
    pass(1);
    pass(0.25, { sleep: 1800 });
    expect(told).toMatchObject([{ alert: 'daemon', raised: true, priority: 'alarm' }]);
    expect(told[0]!.text).toContain('slept for 1800 s');
    expect(timeline.now()).toBeCloseTo(T + 1801.25, 3);
    pass(700);
    expect(told[1]).toMatchObject({ alert: 'daemon', raised: false });
    expect(told).toHaveLength(2);
  });
});

describe('errors of hawse itself', () => {
  test('are told once a room, all logged up to a measure, and end when the room has been well', () => {
    let now = 0;
    const told: string[] = [];
    let logged = 0;
    const mishaps = createMishaps({
      monotonic: () => now,
      log: () => logged++,
      tell: (room, raised, text) => told.push(`${room} ${raised} ${text}`),
    });
    for (let i = 0; i < 1000; i++) mishaps.met('engine', new Error(`no ${i}`));
    mishaps.met('pages', 'a string');
    expect(told).toHaveLength(2);
    expect(told[0]).toContain('(no 0)');
    expect(told[1]).toContain('(a string)');
    expect(logged).toBe(21);
    now = 500;
    mishaps.met('pages', new Error());
    now = 700;
    mishaps.look();
    expect(told[2]).toContain('engine false');
    expect(told).toHaveLength(3);
  });
});

describe('room on the disk', () => {
  test('too little: first the old goes, then people are warned; with room again it ends', async () => {
    let free = 2e9;
    let now = T;
    const told: string[] = [];
    const presents: Present[] = [];
    const state = engine();
    const watch = createDiskWatch({
      journal: {
        freeBytes: async () => free,
        tidy: async (_policy, present) => {
          presents.push(present);
          return { removed: 0, packed: 0, bytes: 0, notes: [] };
        },
      },
      policy: POLICY,
      engine: () => state,
      now: () => now,
      tell: (raised, text) => told.push(`${raised} ${text}`),
      note: () => undefined,
    });
    await watch.look();
    expect([told, presents]).toEqual([[], []]);
    free = 400e6;
    state.watch.since = T - 2 * DAY;
    await watch.look();
    await watch.look();
    expect(told).toEqual(['true 400 MB are left on the disk of the log: make room before the log stops.']);
    // No receiver has told the time: age removes nothing. The anchorage is kept.
    expect(presents).toEqual([{ now: undefined, keepFrom: T - 2 * DAY, free: 400e6 }]);
    free = 900e6;
    now += 4000;
    state.vessel.time = { offset: 0.2, at: now };
    await watch.look();
    expect(told[1]).toBe('false 900 MB are left on the disk of the log.');
    expect(presents[1]!.now).toBe(now);
  });
});
