import { describe, expect, test } from 'vitest';
import { metresPerDegree } from '../../../../shared/earth/local.ts';
import type { VesselView } from '../../../../shared/vessel/view.ts';
import { MODEL } from '../../../../shared/watch/drag/model.ts';
import {
  createReceiver,
  endBlock,
  errorOf,
  gone,
  hearFix,
  type Receiver,
  shaken,
} from '../../../../shared/watch/drag/receiver.ts';
import { MARK } from '../help.ts';
import { held, Lying } from './lying.ts';

/** Seconds of fixes: antenna and roller north of MARK (m), speed north (m/s) as the receiver tells it. */
function hear(
  receiver: Receiver,
  from: number,
  seconds: number,
  antenna: (t: number) => number,
  speed: (t: number) => number | undefined,
  roller = antenna,
): void {
  const perDegree = metresPerDegree(MARK.lat).lat;
  for (let t = from; t < from + seconds; t++) {
    const known = <T>(value: T) => ({ value, at: t, age: 0, source: 'a' });
    const place = (north: number) => ({ lat: MARK.lat + north / perDegree, lon: MARK.lon });
    const v = speed(t);
    const view: VesselView = {
      at: t,
      antenna: known(place(antenna(t))),
      roller: { ...known(place(roller(t))), sigma: 1 },
      ...(v === undefined ? {} : { sog: known(Math.abs(v)), cog: known(v < 0 ? 180 : 0) }),
      ages: {},
      sources: {},
    };
    hearFix(receiver, view, 45);
  }
}
const blocks = (
  receiver: Receiver,
  count: number,
  ...rest: [(t: number) => number, (t: number) => number | undefined]
) => {
  for (let i = 0; i < count; i++) {
    hear(receiver, 20 * i, 20, ...rest);
    endBlock(receiver, 20, MODEL);
  }
};

describe('the receiver’s velocity as a witness', () => {
  test('what is sailed is no error', () => {
    const receiver = createReceiver();
    blocks(
      receiver,
      30,
      (t) => 0.3 * t,
      () => 0.3,
    );
    expect(errorOf(receiver).north).toBeCloseTo(0, 2);
    expect(gone(receiver, 0, 1, 30)).toBeCloseTo(9, 6);
    expect(gone(receiver, 0, -1, 30)).toBeCloseTo(-9, 6);
  });

  test('a step of the position without a velocity is thrown: nearly all of it counts as error, and fades', () => {
    const receiver = createReceiver();
    blocks(
      receiver,
      30,
      (t) => (t >= 300 ? 5 : 0),
      () => 0,
    );
    expect(errorOf(receiver).north).toBeGreaterThan(4);
    expect(errorOf(receiver).north).toBeLessThan(5);
    expect(receiver.thrown.variance).toBeGreaterThan(0);
  });

  test('a step that is too great to trust the receiver after it', () => {
    const receiver = createReceiver();
    blocks(
      receiver,
      3,
      (t) => (t >= 45 ? 30 : 0),
      () => 0,
    );
    expect(receiver.unsteadyUntil).toBeGreaterThan(60);
  });

  test('a velocity that stands still hides no more than 2.5 m of a creep', () => {
    const receiver = createReceiver();
    blocks(
      receiver,
      180,
      (t) => 0.005 * t,
      () => 0,
    );
    expect(errorOf(receiver).north).toBeLessThanOrEqual(2.5 + 1e-9);
  });

  test('the bow that falls off moves the roller while the antenna stays', () => {
    const receiver = createReceiver();
    hear(
      receiver,
      0,
      30,
      () => 0,
      () => 0,
      (t) => (t < 20 ? -10 : -10 + 0.5 * (t - 20)),
    );
    expect(gone(receiver, 0, 1, 45)).toBeCloseTo(4.5, 2);
    expect(gone(receiver, 0, 1, 6)).toBeCloseTo(3, 2);
  });

  test('without a velocity, fixes that hurry about make it unsteady, those of a boat adrift do not', () => {
    const hurried = createReceiver();
    hear(
      hurried,
      0,
      30,
      (t) => 8 * Math.sin(t),
      () => undefined,
    );
    expect(hurried.unsteadyUntil).toBeGreaterThan(29);
    const adrift = createReceiver();
    hear(
      adrift,
      0,
      60,
      (t) => 1.2 * t,
      () => undefined,
    );
    expect(adrift.unsteadyUntil).toBeUndefined();
  });

  test('without a velocity nothing is known', () => {
    const receiver = createReceiver();
    blocks(
      receiver,
      10,
      (t) => t,
      () => undefined,
    );
    expect(errorOf(receiver)).toEqual({ east: 0, north: 0 });
    expect(gone(receiver, 0, 1, 30)).toBeUndefined();
  });
});

test('a checkpoint of an older hawse, which knew no jitter, goes on', () => {
  const boat = new Lying(2).lie(600, held());
  delete boat.state.drag!.receiver.jitter;
  boat.lie(600, held());
  expect(boat.levels).toEqual([]);
  expect(boat.state.drag!.receiver.jitter!.velocity).toBeGreaterThan(0);
});

describe('a position that runs away from its velocity shakes the receiver', () => {
  const runningOff = (error: number) =>
    new Lying(2).lie(600, held()).lie(60, held(), (t) => ({ error: { east: 0, north: (t - 600) * error } }));

  test('by metres a second, as under a bad sky; not by a creep', () => {
    const bad = runningOff(1);
    expect(shaken(bad.state.drag!.receiver, bad.at)).toBe(true);
    const sound = runningOff(0.02);
    expect(shaken(sound.state.drag!.receiver, sound.at)).toBe(false);
  });

  test('not while the velocity says nought, as one may that never says anything else', () => {
    const bad = runningOff(1);
    Object.assign(bad.state.drag!.receiver.last!, { east: 0, north: 0 });
    expect(shaken(bad.state.drag!.receiver, bad.at)).toBe(false);
  });
});
