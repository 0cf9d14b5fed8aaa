import { describe, expect, test } from 'vitest';
import { direction, radians, turn } from '../../../shared/quantities/angle.ts';
import type { Known } from '../../../shared/quantities/estimate.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';
import { followLie, lieNow } from '../../../shared/watch/lying.ts';
import { createWatch, type WatchState } from '../../../shared/watch/state.ts';
import { MARK, START, settings } from './help.ts';

const known = <T>(value: T, at: number): Known<T> => ({ value, at, age: 0, source: 'test' });

function marked(veered: number): WatchState {
  const state = createWatch();
  state.phase = 'watching';
  state.mark = { ...MARK, sigma: 1, at: START, by: 'test', how: 'here' };
  state.told.veered = veered;
  return state;
}

const view = (at: number, more: Partial<VesselView>): VesselView => ({ at, ages: {}, sources: {}, ...more });

describe('the cable in this wind', () => {
  /** seamanship-physics.md §1.6 case A [C]: 2.3 kg/m, h 9.5 m, L 50 m, H 1000 N → reach 48.118526 m; drag area 12 m². */
  const strong = Math.sqrt((2 * 1000) / (1.225 * 12));
  const boat = { ...settings().boat, windage: { area: 12 }, roller: { height: 1.5 } };
  const at = START + 60;
  const inWind = (speed: number): VesselView =>
    view(at, { depth: known({ measured: 8, surface: 8 }, at), windGround: known({ from: 200, speed }, at) });

  test('reaches as far as the published catenary, and is fair', () => {
    const { cable } = lieNow(marked(50), settings({ boat }), inWind(strong), { value: 48.1, sigma: 0.2 });
    expect(cable!.reach.value).toBeCloseTo(48.118526, 3);
    expect(cable!.state).toBe('fair');
    expect(cable!.certainty).toBeGreaterThan(0.9);
  });

  test('an uncertain place does not make it taut in a light wind; while weighing only her place tells', () => {
    const far = { value: 50, sigma: 4 };
    const watching = marked(50);
    expect(lieNow(watching, settings({ boat }), inWind(4), far).cable!.state).not.toBe('taut');
    const weighing = { ...watching, phase: 'weighing' as const };
    expect(lieNow(weighing, settings({ boat }), inWind(4), far).cable!.state).toBe('taut');
  });

  test('is unknown without a length veered, a depth or a distance', () => {
    const untold = marked(50);
    delete untold.told.veered;
    expect(lieNow(untold, settings({ boat }), inWind(4), { value: 40, sigma: 2 }).cable).toBeUndefined();
    expect(
      lieNow(marked(50), settings({ boat }), view(at, {}), { value: 40, sigma: 2 }).cable,
    ).toBeUndefined();
    expect(lieNow(marked(50), settings({ boat }), inWind(4), undefined).cable).toBeUndefined();
  });
});

describe('wind and stream', () => {
  const SET = 310;
  const DRIFT = 0.6;

  /** Twenty minutes at anchor: she sheers 25° each side of her heading over the ground at rest, her log tells the stream past her. */
  function sheering(heading: number, log = true): { state: WatchState; last: VesselView } {
    const state = marked(40);
    let last = view(START, {});
    for (let t = 0; t < 1200; t++) {
      const at = START + t;
      const h = direction(heading + 25 * Math.sin((2 * Math.PI * t) / 90));
      const ahead = -DRIFT * Math.cos(radians(SET - h));
      last = view(at, {
        heading: { ...known(h, at), sigma: 3, from: 'true' },
        sog: known(0.02, at),
        windGround: known({ from: 230, speed: 7 }, at),
        ...(log ? { waterSpeed: known({ ahead }, at) } : {}),
      });
      followLie(state, last);
    }
    return { state, last };
  }

  test('the sheer shows the whole stream, though the log tells only the part along her', () => {
    const { state, last } = sheering(130);
    const { lie } = lieNow(state, settings(), last, undefined);
    const { set, drift, from } = lie!.stream!;
    expect(from).toBe('sheer');
    expect(Math.abs(turn(SET, set.value))).toBeLessThan(2 * set.sigma);
    expect(Math.abs(drift.value - DRIFT)).toBeLessThan(2 * drift.sigma);
  });

  test('tells which of the two has her, and how far apart they push', () => {
    const { state, last } = sheering(130);
    const { lie } = lieNow(state, settings(), last, undefined);
    expect(lie!.to).toBe('stream');
    // Wind from 230 pushes to 050; the stream to 310: a hundred degrees to port of it.
    expect(Math.abs(lie!.divergence! + 100)).toBeLessThan(15);
    expect(lie!.predictedHeading!.sigma).toBeGreaterThan(0);
  });

  test('without a log the stream is unknown, in words', () => {
    const { state, last } = sheering(130, false);
    const { lie } = lieNow(state, settings(), last, undefined);
    expect(lie!.stream).toBeUndefined();
    expect(lie!.streamUnknown).toMatch(/log/);
    expect(lie!.to).toBeUndefined();
  });

  test('a stream that an instrument tells goes before', () => {
    const { state, last } = sheering(130);
    const told = { ...last, stream: known(towardsStream(), last.at) };
    expect(lieNow(state, settings(), told, undefined).lie!.stream).toMatchObject({
      from: 'instrument',
      set: { value: 300, sigma: 10 },
      drift: { value: 0.5 },
    });
  });

  test('the state of it is plain data', () => {
    const { state, last } = sheering(130);
    const copy = JSON.parse(JSON.stringify(state)) as WatchState;
    expect(copy).toEqual(state);
    expect(lieNow(copy, settings(), last, undefined)).toEqual(lieNow(state, settings(), last, undefined));
  });
});

const towardsStream = () => ({ set: 300, drift: 0.5 });
