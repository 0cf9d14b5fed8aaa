import { describe, expect, test } from 'vitest';
import { accessNote, mayDo } from '../../shared/access.ts';
import { checkNow } from '../../shared/departing.ts';
import { destination, distanceBearing } from '../../shared/earth/geodesic.ts';
import { createEngine, type EngineState, step } from '../../shared/engine.ts';
import { lee } from '../../shared/leeing.ts';
import type { NeighbourView } from '../../shared/neighbours/view.ts';
import { snapshot } from '../../shared/snapshot.ts';
import { streamTurn } from '../../shared/streaming.ts';
import { passTidalStream } from '../../shared/tidal-stream/tidal-stream.ts';
import { groundOf, lowWaterFinding } from '../../shared/tiding.ts';
import type { VesselView } from '../../shared/vessel/view.ts';
import type { WatchView } from '../../shared/watch/view.ts';
import { MARK, START, settings } from './weigh/help.ts';

/** What ties the rooms: whether each is told what the others know. Invented anchorage; no physics is proved here. */
const known = <T>(value: T) => ({ value, at: START, age: 0, source: 'test' });
/** 30 m north of her mark in a southerly wind. */
const vessel = (): VesselView => ({
  at: START,
  roller: { ...known(destination(MARK, 0, 30)), sigma: 1 },
  heading: { ...known(180), sigma: 2, from: 'true' },
  windGround: known({ from: 180, speed: 8 }),
  depth: known({ measured: 5, surface: 6, keel: 4.1 }),
  ages: {},
  sources: {},
});
const watching = (): WatchView => ({
  phase: 'watching',
  mark: { ...MARK, sigma: 2, at: START - 9000, by: 'Ann', how: 'here' },
  circle: { radius: 50, computed: false, explanation: '' },
  cable: { reach: { value: 32, sigma: 2 }, state: 'fair', certainty: 0.8 },
  distance: { value: 30, sigma: 2 },
  limits: {},
  standDown: [],
});
const stream = { set: { value: 90, sigma: 5 }, drift: { value: 0.5, sigma: 0.05 }, from: 'log' as const };
const neighbour = (metres: number, bearing: number, more: Partial<NeighbourView> = {}): NeighbourView => ({
  id: 'ais-211000001',
  from: 'ais',
  activity: 'at-anchor',
  activityFrom: 'told',
  place: destination(MARK, bearing, metres),
  at: START,
  extent: { toBow: 6, toStern: 6, toPort: 2, toStarboard: 2 },
  extentFrom: 'told',
  ...more,
});

describe('the departure check is told', () => {
  const said = (watch: WatchView, engine = createEngine(settings())) =>
    Object.fromEntries(checkNow(engine, vessel(), watch)!.measured.map(({ item, text }) => [item, text]));

  test('stream, what she lies to and how far that is from the wind, slack water, and a moved anchor', () => {
    const watch = watching();
    watch.lie = { to: 'both', divergence: -90, stream };
    const engine = createEngine(settings());
    engine.tidalStream.told = [{ at: START + 1800 }];
    const told = said(watch, engine);
    expect(told.stream).toMatch(/^Stream 1\.0 kn to 090°, pushing 90° away.*slack water in 30 min/);
    expect(told.lie).toBe('She lies to wind and stream, 30 m from the anchor.');
    watch.anchor = {
      ...MARK,
      moved: 11,
      sigma: 2,
      probability: 0.9,
      east: 0,
      north: 11,
      ellipse: { major: 2, minor: 2, bearing: 0 },
    };
    expect(said(watch).lie).toMatch(/probably moved 11 m/);
  });

  test('why the stream is not known, and no distance when there is none', () => {
    const watch = watching();
    watch.lie = { streamUnknown: 'There is no log.' };
    delete watch.distance;
    expect(said(watch).stream).toBe('Stream not known: There is no log.');
    expect(said(watch).lie).toBe('She lies; to wind or stream is not known.');
  });

  test('the neighbours: by name or number, in the circle, over the anchor, dragging, how far off', () => {
    const engine = createEngine(settings());
    engine.neighbours.views = [
      neighbour(45, 90),
      neighbour(10, 180, { name: 'Grey Withy', overOurAnchor: true, distance: 28 }),
      neighbour(300, 90, { name: 'Ostrava Loam', dragging: { beyond: 20, speed: 0.5, toward: 0 } }),
      neighbour(60, 270, { name: 'Tern', distance: 12 }),
    ];
    const text = said(watching(), engine).neighbours;
    expect(text).toContain('ais-211000001 lies in our circle');
    expect(text).toContain('Grey Withy lies over our anchor');
    expect(text).toContain('Ostrava Loam drags');
    expect(text).toContain('Tern is 12 m off');
    engine.neighbours.views = [neighbour(60, 90, { name: 'Tern' })];
    expect(said(watching(), engine).neighbours).toBe(
      'Nearest vessel known: Tern. Not all send AIS: look round.',
    );
  });
});

describe('the lee', () => {
  const engine = (...views: NeighbourView[]): EngineState => {
    const made = createEngine(settings());
    made.neighbours.views = views;
    return made;
  };
  const met = (state: EngineState, watch = watching()) => lee(state, vessel(), watch)?.first;

  test('is unknown without mark, position or wind', () => {
    const none = watching();
    delete none.mark;
    expect(lee(engine(), vessel(), none)).toBeUndefined();
    for (const key of ['roller', 'windGround'] as const) {
      const blind = vessel();
      delete blind[key];
      expect(lee(engine(), blind, watching())).toBeUndefined();
    }
  });

  test('knows who lies there, with her name when it is known; not who is under way or where she was long ago', () => {
    expect(met(engine(neighbour(130, 0)))).toMatchObject({ what: 'neighbour' });
    expect(met(engine(neighbour(130, 0)))).not.toHaveProperty('name');
    expect(met(engine(neighbour(130, 0, { name: 'Tern' })))).toMatchObject({ name: 'Tern' });
    expect(met(engine(neighbour(130, 0, { activity: 'under-way' })))).toBeUndefined();
    expect(met(engine(neighbour(130, 0, { stale: true })))).toBeUndefined();
    expect(met(engine(neighbour(130, 180)))).toBeUndefined();
  });

  test('knows the sectors, and goes with the stream', () => {
    const watch = watching();
    watch.sectors = [{ ...MARK, from: 315, to: 45, beyond: 100, name: 'reef' }];
    const first = met(engine(), watch)!;
    expect(first).toMatchObject({ what: 'sector', name: 'reef' });
    expect(first.distance).toBeGreaterThan(66);
    expect(first.distance).toBeLessThan(74);
    watch.sectors = [{ ...MARK, from: 315, to: 45, beyond: 100 }];
    expect(met(engine(), watch)).not.toHaveProperty('name');
    expect(lee(engine(), vessel(), watching())!.toward).toBeCloseTo(0, 6);
    watch.lie = { stream };
    // Wind drives her north at 0.42 m/s, the stream east at 0.5 m/s.
    expect(lee(engine(), vessel(), watch)!.toward).toBeCloseTo(50, 0);
  });

  test('knows the soundings, with the tide when they are reduced', () => {
    const state = engine();
    const shallow = destination(MARK, 0, 90);
    state.soundings.view = {
      origin: destination(destination(shallow, 180, 10), 270, 10),
      side: 20,
      reduced: false,
      cells: [[0, 0, 2, 0.2]],
      share: 1,
    };
    expect(met(state)).toMatchObject({ what: 'shoal' });
    state.soundings.view.cells = [[0, 0, 2.5, 0.2]];
    expect(met(state)).toBeUndefined();
    state.soundings.view = { ...state.soundings.view, reduced: true };
    // Reduced soundings without a tide tell no depth of now.
    state.soundings.view.cells = [[0, 0, 0.5, 0.2]];
    expect(met(state)).toBeUndefined();
    step(state, {
      kind: 'command',
      at: START,
      by: 'Ann',
      command: {
        do: 'tide',
        tell: {
          turns: [
            { at: START - 3600, height: 1.6 },
            { at: START + 18_000, height: 0.5 },
          ],
        },
      },
    });
    expect(met(state)).toMatchObject({ what: 'shoal' });
    state.soundings.view.cells = [[0, 0, 1.5, 0.2]];
    expect(met(state)).toBeUndefined();
  });
});

describe('the turn of the stream', () => {
  test('is nothing without a mark, unknown without a record, and says how much was measured', () => {
    const none = watching();
    delete none.mark;
    const engine = createEngine(settings());
    expect(streamTurn(engine, vessel(), none)).toBeUndefined();
    expect(streamTurn(engine, vessel(), watching())).toMatchObject({
      unknown: expect.any(String),
      record: { samples: 0, span: 0 },
    });
  });

  test('from a table: the time and the words, but not how she will lie', () => {
    const engine = createEngine(settings());
    engine.tidalStream.told = [{ at: START + 1800, setsAfterwards: 90 }];
    const view = streamTurn(engine, vessel(), watching())!;
    expect(view).toMatchObject({ from: 'table', setsAfterwards: 90 });
    expect(view.lies).toBeUndefined();
    expect(view.report).toMatch(/^In about 30 min .* sets to 090°\.$/);
  });

  test('measured: how she will lie then, and where her roller will be by the cable’s reach', () => {
    const engine = createEngine(settings());
    // Invented: a stream along east and west that turns every 6 h 12 min, last so 3000 s ago.
    for (let at = START - (START % 600) - 30_000; at <= START; at += 600) {
      const east = 0.6 * Math.sin((2 * Math.PI * (at - START + 3000)) / 44_714);
      passTidalStream(engine.tidalStream, at, true, () => ({
        set: east < 0 ? 270 : 90,
        drift: Math.abs(east),
      }));
    }
    const view = streamTurn(engine, vessel(), watching())!;
    expect(view.from).toBe('measured');
    // Half a tide after the last turn, within a quarter of an hour; then it sets to the west.
    expect(Math.abs(view.at!.value - (START - 3000 + 44_714 / 2))).toBeLessThan(900);
    expect(view.setsAfterwards).toBeCloseTo(270, -1);
    expect(view.record.span).toBeGreaterThan(29_000);
    // An hour and a half later it runs at 0.4 m/s and more: the bow looks between wind (south) and stream (east).
    const { heading, drift, roller } = view.lies!;
    expect(drift).toBeGreaterThan(0.3);
    expect(heading.value).toBeGreaterThan(90);
    expect(heading.value).toBeLessThan(180);
    const there = distanceBearing(MARK, roller!);
    expect(there.distance).toBeCloseTo(32, 3);
    expect(there.bearing).toBeCloseTo(heading.value + 180, 3);
    expect(view.report).toMatch(/she will probably lie heading/);
    const calm = vessel();
    delete calm.windGround;
    expect(streamTurn(engine, calm, watching())).not.toHaveProperty('lies');
    const loose = watching();
    delete loose.cable;
    expect(streamTurn(engine, vessel(), loose)!.lies).not.toHaveProperty('roller');
  });
});

describe('tide, soundings and watch', () => {
  const least = {
    depth: { value: 2, sigma: 0.2 },
    underKeel: 0.1,
    at: START + 7200,
    place: MARK,
    sounded: true,
  };
  const engine = (): EngineState => {
    const made = createEngine(settings());
    made.watch.since = START - 9000;
    made.soundings.view = { origin: MARK, side: 5, reduced: true, cells: [], share: 1, least };
    return made;
  };
  const found = (state: EngineState) => {
    let last: ReturnType<typeof lowWaterFinding>;
    for (let second = 0; second <= 61; second++)
      last = lowWaterFinding(state, { ...vessel(), at: START + second });
    return last;
  };

  test('low water in the circle is told a minute on, with 1.3 σ of the soundings allowed for', () => {
    // 0.1 m less 0.26 m.
    expect(found(engine())).toMatchObject({
      kind: 'low-water',
      priority: 'caution',
      limit: 0.5,
      value: expect.closeTo(-0.16, 9),
      text: expect.stringContaining('circle'),
    });
  });

  test('not without a mark, nor when the crew has taken the limit away; by their own limit when there is one', () => {
    const none = engine();
    delete none.watch.since;
    expect(found(none)).toBeUndefined();
    const off = engine();
    off.watch.told.limits.underKeelBelow = null;
    expect(found(off)).toBeUndefined();
    const own = engine();
    own.watch.told.limits.underKeelBelow = -0.3;
    expect(found(own)).toBeUndefined();
    const config = engine();
    config.settings.limits.underKeelBelow = -0.2;
    expect(found(config)).toBeUndefined();
    config.settings.limits.underKeelBelow = -0.1;
    expect(found(config)).toMatchObject({ limit: -0.1 });
  });

  test('a least depth of the past is none', () => {
    const past = engine();
    past.soundings.view!.least = { ...least, at: START - 1 };
    expect(found(past)).toBeUndefined();
  });

  test('soundings are judged over the circle without its margin and a boat’s length more, with the tide of now and the least ahead', () => {
    const state = engine();
    expect(groundOf(state, START)).toEqual({});
    state.watch.mark = { ...MARK, sigma: 2, at: START, by: 'Ann', how: 'here' };
    state.watch.circle = {
      radius: 50,
      computed: true,
      explanation: '',
      from: { markSigma: 2, margin: 6, rollerHeight: 1.5 },
    };
    expect(groundOf(state, START)).toEqual({ anchor: MARK, radius: 50 - 6 + 12 });
    state.watch.circle.computed = false;
    expect(groundOf(state, START).radius).toBe(62);
    step(state, {
      kind: 'command',
      at: START,
      by: 'Ann',
      command: {
        do: 'tide',
        tell: {
          turns: [
            { at: START - 11_160, height: 4 },
            { at: START + 11_160, height: 1 },
          ],
        },
      },
    });
    const ground = groundOf(state, START);
    expect(ground.height).toBeCloseTo(2.5, 1);
    expect(ground.low).toMatchObject({ at: START + 11_160, height: 1 });
  });
});

describe('the engine', () => {
  test('notes who was given or lost a key, and by whom', () => {
    const engine = createEngine(settings());
    const change = { what: 'made', name: 'Galley', role: 'command' } as const;
    const done = step(engine, { kind: 'command', at: START, by: 'Ann', command: { do: 'access', change } });
    expect(done.answer).toEqual({ ok: true });
    expect(done.events).toContainEqual({ event: 'note', t: START, text: accessNote(change, 'Ann') });
    expect(accessNote(change, 'Ann')).toBe('"Galley" (command) got a key, by Ann.');
    expect(accessNote({ ...change, what: 'paired' }, 'Ann')).toBe('"Galley" (command) was paired by code.');
    expect([mayDo('acknowledge', 'look'), mayDo('look', 'acknowledge'), mayDo(undefined, 'look')]).toEqual([
      true,
      false,
      false,
    ]);
  });

  test('keeps the latest notes only', () => {
    const engine = createEngine(settings());
    for (let i = 0; i < 400; i++)
      step(engine, { kind: 'link', at: START + i, source: 'bus', up: i % 2 === 0, detail: `turn ${i}` });
    const { notes } = snapshot(engine, START + 400);
    expect(notes.length).toBeLessThan(400);
    expect(JSON.stringify(notes)).toContain('turn 399');
    expect(JSON.stringify(notes)).not.toContain('turn 0"');
  });

  test('a neighbour told by hand can be taken away, once', () => {
    const engine = createEngine(settings());
    const order = (takeAway: string) =>
      step(engine, { kind: 'command', at: START, by: 'Ann', command: { do: 'neighbour', takeAway } }).answer;
    expect(order('hand-1')).toMatchObject({ ok: false });
    engine.neighbours.told.push({
      id: 'hand-1',
      by: 'Ann',
      at: START,
      anchor: MARK,
      reach: 30,
      range: 50,
      bearing: 0,
    });
    expect(order('hand-1')).toEqual({ ok: true });
    expect(order('hand-1')).toMatchObject({ ok: false });
  });

  test('tells how she lies every so many seconds when it is asked to', () => {
    const engine = createEngine({ ...settings(), lieEvery: 10 });
    const lies = [];
    for (let at = START; at <= START + 60; at++)
      lies.push(...step(engine, { kind: 'tick', at }).events.filter(({ event }) => event === 'lie'));
    expect(lies.length).toBeGreaterThanOrEqual(5);
    expect(lies.length).toBeLessThanOrEqual(7);
    for (const { t } of lies) expect(t % 10).toBe(0);
  });
});
