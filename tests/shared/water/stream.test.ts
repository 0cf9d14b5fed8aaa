import { describe, expect, test } from 'vitest';
import { radians, turn } from '../../../shared/quantities/angle.ts';
import { towards, type Vector } from '../../../shared/quantities/vector.ts';
import { createStream, FORGET, observeStream, type StreamState } from '../../../shared/water/stream.ts';
import { streamEstimate } from '../../../shared/water/stream-estimate.ts';

/** A small congruential generator: the same numbers in every run. */
function noise(seed: number): () => number {
  let x = seed >>> 0;
  const uniform = () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return (x + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

interface Night {
  set: number;
  drift: number;
  /** Mean heading, and amplitude of the sheer, degrees. */
  heading: number;
  sheer: number;
  seconds: number;
  /** Speed ahead over the ground while sheering, m/s. */
  surge?: number;
  athwartLog?: boolean;
  /** A log that can't show sternway. */
  unsigned?: boolean;
  seed?: number;
  from?: number;
}

/** A boat that sheers with a period of 100 s; the log sees the water pass, with noise of 0.04 m/s. */
function live(state: StreamState, night: Night): number {
  const { set, drift, heading, sheer, seconds, surge = 0.15, seed = 1, from = 0 } = night;
  const random = noise(seed);
  const stream = towards(drift, set);
  for (let t = 1; t <= seconds; t++) {
    const h = heading + sheer * Math.sin((2 * Math.PI * t) / 100);
    const ground: Vector = towards(surge * Math.cos((2 * Math.PI * t) / 50), h);
    const past = { east: ground.east - stream.east, north: ground.north - stream.north };
    const sine = Math.sin(radians(h));
    const cosine = Math.cos(radians(h));
    const ahead = past.east * sine + past.north * cosine + 0.04 * random();
    const athwart = past.east * cosine - past.north * sine + 0.04 * random();
    observeStream(state, {
      heading: (h + 360) % 360,
      ahead: night.unsigned ? Math.abs(ahead) : ahead,
      ...(night.athwartLog ? { athwart } : {}),
      velocity: { east: ground.east + 0.05 * random(), north: ground.north + 0.05 * random() },
      at: from + t,
    });
  }
  return from + seconds;
}

function known(state: StreamState, at: number) {
  const estimate = streamEstimate(state, at);
  if ('unknown' in estimate) throw new Error(estimate.unknown);
  return estimate;
}

const unknown = (state: StreamState, at: number): string => {
  const estimate = streamEstimate(state, at);
  if (!('unknown' in estimate)) throw new Error(`unknown expected, got ${JSON.stringify(estimate)}`);
  return estimate.unknown;
};

describe('stream from the log and the sheer (made-up nights, to test the algebra; they prove nothing about the sea)', () => {
  test('sheering 35° to each side, both parts of the stream come out, within their sigmas', () => {
    for (const set of [20, 130, 245, 350]) {
      for (const off of [0, 25, -40]) {
        const state = createStream();
        const at = live(state, { set, drift: 0.7, heading: set + 180 + off, sheer: 35, seconds: 900 });
        const { set: found, drift } = known(state, at);
        expect(Math.abs(turn(set, found.value))).toBeLessThan(2.5 * found.sigma);
        expect(Math.abs(drift.value - 0.7)).toBeLessThan(2.5 * drift.sigma);
        expect(found.sigma).toBeLessThan(25);
        expect(drift.sigma).toBeLessThan(0.15);
      }
    }
  });

  test('on one heading it says that only the part along her is measured', () => {
    const state = createStream();
    const at = live(state, { set: 180, drift: 0.7, heading: 30, sheer: 1, seconds: 900 });
    expect(unknown(state, at)).toMatch(/kept her heading.*0\.6 m\/s from ahead/);
  });

  test('more sheer, less sigma across; a longer record, less too', () => {
    const sigma = (sheer: number, seconds: number) => {
      const state = createStream();
      return known(state, live(state, { set: 180, drift: 0.7, heading: 20, sheer, seconds })).set.sigma;
    };
    expect(sigma(40, 900)).toBeLessThan(sigma(15, 900));
    expect(sigma(15, 900)).toBeLessThan(sigma(15, 200));
  });

  test('a log that measures across too needs no sheer', () => {
    const state = createStream();
    const at = live(state, { set: 180, drift: 0.7, heading: 30, sheer: 0, seconds: 300, athwartLog: true });
    const { set, drift } = known(state, at);
    expect(Math.abs(turn(180, set.value))).toBeLessThan(6);
    expect(drift.value).toBeCloseTo(0.7, 1);
    expect(state.signed).toBe(true);
  });

  test('a paddle wheel turns the same way ahead and astern: her surging gives the stream away', () => {
    // She lies to the wind with the stream from astern; the wheel shows 0.5 m/s as if from ahead.
    const state = createStream();
    const at = live(state, {
      set: 10,
      drift: 0.5,
      heading: 10,
      sheer: 30,
      seconds: 900,
      unsigned: true,
      surge: 0.2,
    });
    expect(state.signed).toBe(false);
    const { set, drift } = known(state, at);
    expect(Math.abs(turn(10, set.value))).toBeLessThan(3 * set.sigma);
    expect(set.sigma).toBeLessThan(30);
    expect(drift.value).toBeCloseTo(0.5, 1);
  });

  test('a little surging, a quarter of it noise, is enough to take the doubt away', () => {
    const state = createStream();
    const at = live(state, {
      set: 190,
      drift: 0.5,
      heading: 10,
      sheer: 30,
      seconds: 900,
      unsigned: true,
      surge: 0.06,
    });
    expect(state.signed).toBe(false);
    expect(known(state, at).set.sigma).toBeLessThan(25);
  });

  test('without surging the wheel leaves a doubt, which the sigma of the set holds', () => {
    const state = createStream();
    const at = live(state, {
      set: 190,
      drift: 0.5,
      heading: 10,
      sheer: 30,
      seconds: 900,
      unsigned: true,
      surge: 0,
    });
    const { set } = known(state, at);
    expect(Math.abs(turn(190, set.value))).toBeLessThan(10);
    expect(set.sigma).toBeGreaterThan(40);
  });

  test('a log that shows sternway once is believed from then on, and its earlier readings too', () => {
    const state = createStream();
    let at = live(state, { set: 190, drift: 0.5, heading: 10, sheer: 30, seconds: 600, surge: 0 });
    expect(state.signed).toBe(false);
    const before = known(state, at);
    observeStream(state, { heading: 10, ahead: -0.01, velocity: { east: 0, north: 0 }, at: ++at });
    expect(state.signed).toBe(true);
    const after = known(state, at);
    expect(after.set.sigma).toBeLessThan(before.set.sigma);
    expect(Math.abs(turn(after.set.value, before.set.value))).toBeLessThan(5);
  });

  test('slack water: little drift, and a set that nobody knows', () => {
    const state = createStream();
    const at = live(state, { set: 90, drift: 0, heading: 200, sheer: 30, seconds: 900 });
    const { set, drift } = known(state, at);
    expect(drift.value).toBeLessThan(2 * drift.sigma + 0.02);
    expect(set.sigma).toBeGreaterThan(40);
  });

  test('a wheel that stands still measures nothing: it may be stuck, or the stream comes from astern', () => {
    const state = createStream();
    const still = { ahead: 0, velocity: { east: 0, north: 0 } };
    for (let t = 1; t <= 600; t++) observeStream(state, { ...still, heading: 30 * Math.sin(t / 16), at: t });
    expect(unknown(state, 600)).toMatch(/stands still.*astern/);
    // The same zero from a log that is known to show sternway is a measurement.
    observeStream(state, { ...still, ahead: -0.1, heading: 0, at: 601 });
    for (let t = 602; t <= 1200; t++)
      observeStream(state, { ...still, heading: 30 * Math.sin(t / 16), at: t });
    expect(known(state, 1200).drift.value).toBeLessThan(0.05);
  });

  test('old readings fade over ten minutes: after the turn of the tide the new stream shows', () => {
    const state = createStream();
    let at = live(state, { set: 180, drift: 0.6, heading: 0, sheer: 30, seconds: 1800 });
    at = live(state, { set: 0, drift: 0.6, heading: 180, sheer: 30, seconds: 3600, from: at, seed: 2 });
    const { set, drift } = known(state, at);
    expect(Math.abs(turn(0, set.value))).toBeLessThan(10);
    expect(drift.value).toBeCloseTo(0.6, 1);
    expect(FORGET).toBe(600);
  });

  test('it does not depend on the rate of the log', () => {
    const fast = createStream();
    const slow = createStream();
    for (let t = 0; t <= 1200; t += 0.2) {
      const heading = 30 * Math.sin(t / 16) + 40;
      const v = 0.2 * Math.cos(t / 9);
      const observation = {
        heading,
        ahead: 0.5 * Math.cos(radians(heading - 40)) + v,
        velocity: towards(v, heading),
        at: t,
      };
      observeStream(fast, observation);
      if (Math.abs(t / 2 - Math.round(t / 2)) < 1e-6) observeStream(slow, observation);
    }
    const a = known(fast, 1200);
    const b = known(slow, 1200);
    expect(a.drift.value).toBeCloseTo(b.drift.value, 1);
    expect(Math.abs(turn(a.set.value, b.set.value))).toBeLessThan(3);
    expect(fast.weight / slow.weight).toBeCloseTo(1, 1);
  });

  test('too little, too old, nothing: it says so', () => {
    const state = createStream();
    expect(unknown(state, 0)).toMatch(/No reading/);
    const at = live(state, { set: 180, drift: 0.7, heading: 20, sheer: 30, seconds: 30 });
    expect(unknown(state, at)).toMatch(/Too few/);
    live(state, { set: 180, drift: 0.7, heading: 20, sheer: 30, seconds: 600, from: at });
    expect(unknown(state, at + 600 + 200)).toMatch(/No reading of the log for 200 s/);
  });

  test('the state is plain data that survives a power cut, and bad readings leave it as it is', () => {
    const state = createStream();
    const at = live(state, { set: 180, drift: 0.7, heading: 20, sheer: 30, seconds: 600 });
    const again = JSON.parse(JSON.stringify(state)) as StreamState;
    expect(again).toEqual(state);
    expect(streamEstimate(again, at)).toEqual(streamEstimate(state, at));
    const good = { heading: 10, ahead: 0.5, velocity: { east: 0, north: 0 }, at: at + 1 };
    for (const bad of [
      { ...good, heading: Number.NaN },
      { ...good, ahead: Number.NaN },
      { ...good, ahead: 40 },
      { ...good, athwart: Number.POSITIVE_INFINITY },
      { ...good, velocity: { east: Number.NaN, north: 0 } },
      { ...good, at: at - 5 },
      { ...good, at },
      { ...good, at: Number.NaN },
    ]) {
      expect(observeStream(state, bad)).toBe(false);
    }
    expect(state).toEqual(again);
    expect(observeStream(state, good)).toBe(true);
  });
});
