import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { EngineState } from '../../../shared/engine.ts';
import type { Input } from '../../../shared/input.ts';
import type { Night } from '../../../shared/logbook/night.ts';
import { type Recording, rerun } from '../../../shared/logbook/rerun.ts';
import type { WhatIf } from '../../../shared/logbook/what-if.ts';
import { type Kept, keepNights, whole } from './keptNight.ts';

/** A rehearsed night in which she drags, as the logbook gives it to a page. */
let kept: Kept;
let night: Night;
let recording: Recording;

beforeAll(async () => {
  kept = await keepNights(undefined, { anchorage: 'drag-trip' });
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.live(2150);
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'watch', change: { circleRadius: 200 } },
  });
  await kept.live(120);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.nights.settled();
  const { id } = (await kept.logbook.list()).nights[0]!;
  night = await kept.logbook.open(id);
  const lines = (await whole(await kept.logbook.inputs(id))).trimEnd().split('\n');
  const [first, ...inputs] = lines.map((line) => JSON.parse(line));
  const { at, exact, state } = first as { at: number; exact: boolean; state: EngineState };
  recording = { at, exact, state, inputs: inputs as Input[] };
});
afterAll(() => kept.stop());

const ORIGIN = { id: 'again', origin: 'watch' as const, version: 'test' };

function lived(what?: WhatIf) {
  const run = rerun(recording, ORIGIN, what);
  while (!run.go(1000)) expect(run.progress().share).toBeLessThan(1);
  expect(run.progress().share).toBe(1);
  return run.lived()!;
}

describe('a night lived again', () => {
  test('as it was: the same alerts, story and samples as the watch itself kept', () => {
    const { night: again } = lived();
    expect(night.alerts.length).toBeGreaterThan(0);
    expect(again.alerts).toEqual(night.alerts);
    expect(again.story).toEqual(night.story);
    expect(again.strips).toEqual(night.strips);
  });

  test('a smaller circle: its alarm comes, and says how far she had gone by then', () => {
    const { night: other, raised } = lived({ circleRadius: 40 });
    const alarm = other.alerts.find(({ kind }) => kind === 'outside-circle')!;
    expect(alarm.limit).toBe(40);
    const before = night.alerts.find(({ kind }) => kind === 'outside-circle');
    if (before) expect(alarm.from).toBeLessThan(before.from);
    const gone = raised.find(({ id }) => id === alarm.id)!;
    expect(gone.distance).toBeGreaterThan(40);
    expect(gone.at).toBe(alarm.from);
    // What people told about the circle later does not undo what is tried; the rest of the story stands.
    expect(other.strips.at(-1)!.circle).toBe(40);
    expect(night.strips.at(-1)!.circle).toBe(200);
  });

  test('another mark: distances are from there', () => {
    const { lat, lon } = night.summary.mark;
    const { night: other } = lived({ mark: { lat: lat + 0.001, lon, sigma: 3 } });
    expect(other.summary.mark.lat).toBeCloseTo(lat + 0.001, 9);
    // A thousandth of a degree of latitude is 111 m.
    const far = other.strips.at(-1)!.distance! - night.strips.at(-1)!.distance!;
    expect(Math.abs(far)).toBeGreaterThan(20);
  });

  test('more cable reaches farther; a limit of the wind that was never told warns', () => {
    const before = night.strips.find(({ reach }) => reach !== undefined)!;
    const { night: longer } = lived({ veered: night.settings.veered! + 20 });
    const after = longer.strips.find(({ at }) => at === before.at)!;
    expect(after.reach! - before.reach!).toBeGreaterThan(15);
    const { night: windy } = lived({ limits: { windAbove: 1 } });
    expect(windy.alerts.map(({ kind }) => kind)).toContain('wind-speed');
    const { night: calm } = lived({ limits: { windAbove: null } });
    expect(calm.alerts.map(({ kind }) => kind)).not.toContain('wind-speed');
  });

  test('the recording itself is left as it was', () => {
    const text = JSON.stringify(recording.state);
    lived({ circleRadius: 35, massPerMetre: 9 });
    expect(JSON.stringify(recording.state)).toBe(text);
  });
});
