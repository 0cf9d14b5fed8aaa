import { describe, expect, test } from 'vitest';
import { hearCounter } from '../../../shared/weigh/weigh.ts';
import { Boat } from './help.ts';

/** Cable out: what counts, how surely, and when the windlass is taken to heave. Invented boat, 8 m from roller to bottom. */
const out = (boat: Boat) => boat.now().out!;

describe('the chain counter', () => {
  const told = (boat: Boat, said: Record<string, unknown>, id = 'XDR') =>
    hearCounter(
      boat.state,
      boat.settings,
      {
        ok: true,
        talker: 'II',
        id,
        observations: [
          { kind: 'transducer', type: 'D', unit: 'M', name: 'CHAIN', value: 22, ...said } as never,
        ],
      },
      boat.at,
    );

  test('is a length in metres under its name, from 0 up to 1000', () => {
    for (const good of [{}, { value: 0 }, { value: 999.9 }]) {
      const boat = new Boat();
      told(boat, good);
      expect(boat.state.counter).toEqual({ metres: 'value' in good ? good.value : 22, at: boat.at });
    }
  });

  test('anything else is no counter', () => {
    for (const bad of [
      { kind: 'depth' },
      { type: 'A' },
      { unit: 'D' },
      { name: 'OTHER' },
      { value: undefined },
      { value: -0.1 },
      { value: 1000 },
    ]) {
      const boat = new Boat();
      told(boat, bad);
      expect(boat.state.counter).toBeUndefined();
    }
    const other = new Boat();
    told(other, {}, 'MTW');
    expect(other.state.counter).toBeUndefined();
    const none = new Boat();
    delete none.settings.cable.counter;
    told(none, { name: undefined });
    expect(none.state.counter).toBeUndefined();
  });

  test('that runs down shows that the windlass heaves, for seven seconds; up or by a hair it does not', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 20, heading: 0 });
    boat.counter(22);
    boat.counter(21.96);
    boat.counter(25);
    expect(boat.now().heaving).toBeUndefined();
    boat.counter(24.9);
    expect(boat.now().heaving).toBe(true);
    boat.pass(7, { distance: 20, heading: 0 });
    expect(boat.now().heaving).toBe(true);
    boat.pass(1, { distance: 20, heading: 0 });
    expect(boat.now().heaving).toBeUndefined();
  });

  test('a taut cable that a counter shows being hove in is told without any word of the foredeck', () => {
    const boat = new Boat();
    boat.sigma = 0.2;
    boat.given.mark.sigma = 0.2;
    const changes = boat.pass(10, (second) => {
      boat.counter(21 - 0.1 * second);
      return { distance: 19.8, heading: 0 };
    });
    expect(changes).toContainEqual(expect.stringMatching(/\+cable-taut$/));
  });

  test('counts for twelve seconds', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 20 });
    boat.counter(22);
    boat.pass(12, { distance: 20 });
    expect(out(boat).from).toBe('counter');
    boat.pass(1, { distance: 20 });
    expect(out(boat).from).toBe('veered');
  });
});

describe('as veered', () => {
  test.each([
    [20, 1],
    [33, 1],
    [60, 1.8],
  ])('%d m are known to ± %d m', (veered, sigma) => {
    const boat = new Boat();
    boat.given.veered = veered;
    boat.pass(1, { distance: 12 });
    expect(out(boat)).toEqual({ value: veered, sigma: expect.closeTo(sigma, 9), from: 'veered' });
  });

  test('still counts at 86 % of the distance she lay at; at 84 % it only bounds what is out', () => {
    const boat = new Boat();
    boat.pass(2, { distance: 30 });
    boat.pass(2, { distance: 25.8 });
    expect(out(boat).from).toBe('veered');
    boat.pass(2, { distance: 25.2 });
    // No less than holds her there: √((25.2 − 1.118)² + 8²) = 25.4 m; no more than 40 m. Even between them: σ = width ÷ √12.
    const least = Math.hypot(25.2 - Math.hypot(1, 0.5), 8);
    expect(out(boat).value).toBeCloseTo((least + 40) / 2, 3);
    expect(out(boat).sigma).toBeCloseTo((40 - least) / Math.sqrt(12) + 1, 3);
    expect(out(boat).from).toBe('bounds');
  });
});

describe('counted down', () => {
  const heaved = (boat: Boat, seconds: number, distance = 5) => {
    boat.signal('heaving');
    boat.pass(seconds, { distance });
    boat.signal('holding');
    return out(boat);
  };

  test('is as sure as the windlass’s rate: told in hawse.yaml surer than guessed, and the slower', () => {
    const guessed = new Boat();
    guessed.signal('out:40');
    // A quarter of a metre a second, by a third wrong at most: 40 − 20 · 0.25.
    expect(heaved(guessed, 20)).toEqual({
      value: expect.closeTo(35, 9),
      sigma: expect.closeTo(Math.hypot(1, 0.35 * 0.25 * 20), 9),
      from: 'counted',
    });
    const told = new Boat();
    told.settings.weigh = { windlassRate: 0.2 };
    told.signal('out:40');
    expect(heaved(told, 20)).toEqual({
      value: expect.closeTo(36, 9),
      sigma: expect.closeTo(Math.hypot(1, 0.12 * 0.2 * 20), 9),
      from: 'counted',
    });
  });

  test('a cable that holds her is never shorter than reaches her, as far as that is likely', () => {
    const boat = new Boat();
    boat.signal('out:30');
    // Counted: 25 ± 2 m. At 24 m off, √((24 − 1.118)² + 8²) = 24.2 m would hold her, at 26 m 26.1 m.
    expect(heaved(boat, 20, 24).value).toBeCloseTo(25, 6);
    boat.pass(1, { distance: 26 });
    expect(out(boat).value).toBeCloseTo(Math.hypot(26 - Math.hypot(1, 0.5), 8), 3);
    // Farther than counting can be wrong, it is no longer cable.
    boat.pass(1, { distance: 40 });
    expect(out(boat).value).toBeCloseTo(25 + Math.hypot(1, 0.35 * 0.25 * 20), 3);
  });

  test('a length told without a number of metres veered begins nothing', () => {
    const boat = new Boat();
    delete boat.given.veered;
    boat.signal('heaving');
    boat.pass(20, { distance: 20 });
    expect(boat.now().out).toBeUndefined();
  });
});

describe('the windlass’s rate is learnt', () => {
  const learnt = (seconds: number, from: number, to: number): number | undefined => {
    const boat = new Boat();
    boat.signal(`out:${from}`);
    boat.signal('heaving');
    boat.pass(seconds, { distance: 5 });
    boat.signal(`out:${to}`);
    return boat.state.rate;
  };

  test('from two tellings of the foredeck with at least eight seconds of heaving between', () => {
    expect(learnt(8, 40, 38)).toBeCloseTo(0.25, 9);
    expect(learnt(7, 40, 38)).toBeUndefined();
  });

  test('when it is one that a windlass can have', () => {
    expect(learnt(10, 40, 32.1)).toBeCloseTo(0.79, 9);
    expect(learnt(10, 40, 31)).toBeUndefined();
    expect(learnt(100, 40, 36)).toBeCloseTo(0.04, 9);
    expect(learnt(100, 40, 38)).toBeUndefined();
    expect(learnt(20, 30, 40)).toBeUndefined();
  });

  test('not from what was veered, which is rougher', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 35 });
    boat.signal('heaving');
    boat.pass(20, { distance: 30 });
    boat.signal('out:30');
    expect(boat.state.rate).toBeUndefined();
  });
});
