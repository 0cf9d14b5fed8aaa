import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { settingsOf } from '../../../server/commands/rehearse.ts';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { createSimulator } from '../../../server/simulate/simulator.ts';
import type { Command } from '../../../shared/commands.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import type { Event } from '../../../shared/events.ts';
import { type Hearing, instruments } from '../../../shared/hearing.ts';
import type { Input } from '../../../shared/input.ts';
import { createHeard, type NightHearing } from '../../../shared/logbook/heard.ts';
import { type Recording, rerun } from '../../../shared/logbook/rerun.ts';
import { createViews } from '../../../shared/logbook/views.ts';
import type { WhatIf } from '../../../shared/logbook/what-if.ts';
import { view } from '../../../shared/vessel/vessel.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';
import { recorded } from '../../recorded.ts';

/**
 * A night that is lived again from what was kept of it, beside the same night from its sentences: every event, the record and the samples
 * are the same to the byte, whatever is tried. Invented nights: this is about the two ways, not about the sea.
 */
const START = Date.UTC(2026, 10, 25, 20, 10, 0) / 1000;
const MINUTES = 12;

const order = (at: number, command: Command): Input => ({ kind: 'command', at, by: 'Ann', command });

/** A rehearsed anchorage with orders, a fault, ticks, a link that goes and comes, and two minutes in which nobody hears anything. */
function simulated(name: string): Recording {
  const scenario = anchorages().find((one) => one.name === name)!;
  const settings = settingsOf(scenario);
  const simulator = createSimulator({ ...scenario, start: { ...scenario.start, at: START } }, 1);
  const { lat, lon } = simulator.truth().anchor;
  const end = 60 * MINUTES;
  const orders = new Map<number, (at: number) => Input>([
    [8, (at) => order(at, { do: 'watch', change: { limits: { windAbove: 12 } } })],
    [10, (at) => order(at, { do: 'mark', how: { lat, lon, sigma: 2 } })],
    [
      60,
      (at) => order(at, { do: 'watch', change: { veered: 35, limits: { depthBelow: 2, windShift: 60 } } }),
    ],
    [90, (at) => order(at, { do: 'neighbour', tell: { range: 60, bearing: 120, length: 11 } })],
    [150, (at) => ({ kind: 'link', at, source: 'sim', up: false, detail: 'unplugged' })],
    [330, (at) => order(at, { do: 'watch', change: { circleRadius: 45 } })],
    [
      340,
      (at) => ({
        kind: 'fault',
        at,
        alert: 'disk',
        raised: true,
        priority: 'warning',
        text: 'The disk is full.',
      }),
    ],
    [360, (at) => order(at, { do: 'mark', how: { here: true } })],
    [380, (at) => ({ kind: 'settings', at, settings })],
    [end - 400, (at) => order(at, { do: 'weigh' })],
    [end - 390, (at) => order(at, { do: 'signal', signal: 'heaving' })],
    [end - 100, (at) => order(at, { do: 'aweigh' })],
    [end - 60, (at) => order(at, { do: 'undo-aweigh' })],
    [end - 20, (at) => order(at, { do: 'aweigh' })],
  ]);
  const inputs: Input[] = [{ kind: 'settings', at: START, settings }];
  for (let second = 1; second <= end; second++) {
    simulator.step();
    simulator.step(Math.max(0, START + second - simulator.truth().at));
    const isSilent = second > 150 && second < 280;
    for (const { at, text } of simulator.sentences())
      if (!isSilent) inputs.push({ kind: 'line', at, source: 'sim', text });
    const at = Math.max(START + second, inputs.at(-1)!.at);
    const made = orders.get(second);
    if (made) inputs.push(made(at));
    else if (second % 7 === 0) inputs.push({ kind: 'tick', at });
  }
  return { at: START, exact: true, state: createEngine(settings), inputs };
}

/** A recorded boat whose receiver repeats one fix, and then wakes up. */
function ofBoat(path: string): Recording {
  const lines = gunzipSync(readFileSync(path)).toString('latin1').split(/\r?\n/).slice(18_000, 25_000);
  const settings = { ...settingsOf(anchorages()[0]!), checksumOptional: ['tcp1'] };
  const inputs = lines.map((text, i): Input => ({ kind: 'line', at: START + i / 10, source: 'tcp1', text }));
  inputs.splice(400, 0, order(START + 40, { do: 'mark', how: { lat: 46.2139, lon: 6.1693, sigma: 9 } }));
  return { at: START, exact: true, state: createEngine(settings), inputs };
}

const ORIGIN = { id: 'again', origin: 'watch' as const, version: 'test' };

/** All that comes of a run, as text. */
function lived(recording: Recording, what: WhatIf, ears?: NightHearing): string {
  const run = rerun(recording, ORIGIN, what, ears);
  while (!run.go(500));
  const lives = run.lived();
  expect(lives).toBeDefined();
  return JSON.stringify(lives);
}

const TRIED: WhatIf[] = [
  { circleRadius: 25 },
  { circleRadius: null, veered: 50, massPerMetre: 4 },
  { limits: { windAbove: 5, depthBelow: null, windShift: 15, depthAbove: 3 } },
];

function twoWays(recording: Recording): void {
  const { keeping, again } = createHeard(recording.inputs.length);
  expect(again()).toBeUndefined();
  const asItWas = lived(recording, {});
  expect(lived(recording, {}, keeping)).toBe(asItWas);
  expect(lived(recording, {}, again()!)).toBe(asItWas);
  const mark = recording.inputs.find((input) => input.kind === 'command' && input.command.do === 'mark');
  const how = mark?.kind === 'command' && mark.command.do === 'mark' ? mark.command.how : undefined;
  const place = how && 'lat' in how ? [{ mark: { lat: how.lat + 0.0002, lon: how.lon, sigma: 4 } }] : [];
  for (const what of [...TRIED, ...place])
    expect(lived(recording, what, again()!)).toBe(lived(recording, what));
}

describe('a night heard again is the night heard anew', () => {
  test.each(['quiet-night', 'drag-trip', 'parted', 'frozen-fix', 'neighbours', 'weigh-across'])(
    '%s',
    (name) => {
      twoWays(simulated(name));
    },
  );

  const lake = recorded('boat-lake/lake-2014-06-27.nmea.gz');
  test.runIf(lake)('a recorded boat', () => twoWays(ofBoat(lake!)));

  test('every event of the engine is the same, as it comes', () => {
    const recording = simulated('squall');
    const { keeping, again } = createHeard(recording.inputs.length);
    const told = (ears: NightHearing): Event[] => {
      let engine = structuredClone(recording.state);
      const events: Event[] = [];
      for (const [i, input] of recording.inputs.entries()) {
        ears.begin(i);
        const done = step(engine, input, ears);
        engine = done.state;
        events.push(...done.events);
        ears.end(engine, input);
      }
      return events;
    };
    const first = told(keeping);
    expect(first.length).toBeGreaterThan(5);
    expect(JSON.stringify(told(again()!))).toBe(JSON.stringify(first));
  });
});

describe('what is kept', () => {
  test('a view that comes out is the one that went in, to the last bit', () => {
    const went: VesselView[] = [];
    const views = createViews();
    const hearing: Hearing = {
      ...instruments,
      line(state, line) {
        const said = instruments.line(state, line);
        const seen = view(state.vessel, state.settings, line.at);
        went.push(seen);
        expect(views.keep(seen)).toBe(went.length - 1);
        return said;
      },
    };
    for (const name of ['quiet-night', 'frozen-fix', 'wind-against-tide']) {
      const { state, inputs } = simulated(name);
      let engine = state;
      for (const input of inputs.slice(0, 2400)) engine = step(engine, input, hearing).state;
    }
    expect(views.count()).toBe(went.length);
    for (const [i, seen] of went.entries()) expect(JSON.stringify(views.view(i))).toBe(JSON.stringify(seen));
  });

  test('an instrument that none of these nights has is kept as well', () => {
    const views = createViews();
    const known = { at: 99.5, age: 0.5, source: 'a:IIVBW' };
    const seen: VesselView = {
      at: 100,
      ages: { 'water-speed': 0.5, stream: 0.5, 'water-temperature': 200 },
      sources: { stream: 'a:IIVDR' },
      positionDoubt: { reason: 'it wanders', since: 90 },
      depth: { value: { measured: 4 }, ...known },
      waterSpeed: { value: { ahead: -0.1, athwart: 0 }, ...known },
      stream: { value: { set: 359.9, drift: 0 }, ...known },
    };
    expect(JSON.stringify(views.view(views.keep(seen)))).toBe(JSON.stringify(seen));
    const nothing: VesselView = { at: 101, ages: {}, sources: {} };
    expect(JSON.stringify(views.view(views.keep(nothing)))).toBe(JSON.stringify(nothing));
  });

  test('what was not kept is not made up: a run that broke, or that stopped half way, gives nothing', () => {
    const recording = simulated('quiet-night');
    const half = createHeard(recording.inputs.length);
    rerun(recording, ORIGIN, {}, half.keeping).go(500);
    expect(half.again()).toBeUndefined();
    const broken = createHeard(recording.inputs.length);
    const back: Input = { kind: 'tick', at: START - 10 };
    const inputs = recording.inputs.with(700, back);
    const run = rerun({ ...recording, inputs }, ORIGIN, {}, broken.keeping);
    while (!run.go(500));
    expect(broken.again()).toBeUndefined();
  });

  test('a night that is too long for a phone is not kept, and lived as any other', () => {
    const recording = simulated('quiet-night');
    const { keeping, again } = createHeard(recording.inputs.length, 300);
    expect(lived(recording, {}, keeping)).toBe(lived(recording, {}));
    expect(again()).toBeUndefined();
  });

  test('inputs that are not those of the night are an error, not a wrong night', () => {
    const recording = simulated('quiet-night');
    const { keeping, again } = createHeard(recording.inputs.length);
    lived(recording, {}, keeping);
    const later = recording.inputs.map((input) => ({ ...input, at: input.at + 0.5 }));
    const run = rerun({ ...recording, inputs: later }, ORIGIN, {}, again()!);
    expect(() => run.go(3000)).toThrow('was not kept');
  });
});
