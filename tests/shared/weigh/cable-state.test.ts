import { describe, expect, test } from 'vitest';
import { chance } from '../../../shared/weigh/lasting.ts';
import { onFix } from '../../../shared/weigh/weigh.ts';
import { Boat, type Place } from './help.ts';

/** How sure stay and cable are, what changes them and when, and what is told of it. Invented boat, 8 m ± 0.4 m from roller to bottom. */
const lie = (boat: Boat, metres: number | undefined, seconds: number, place: Place) =>
  boat.pass(seconds, () => {
    if (metres !== undefined) boat.counter(metres);
    return place;
  });
const changes = (boat: Boat) => boat.events.filter(({ event }) => event === 'weigh');

test('chance: the normal distribution within a hundredth [F: tables of Φ]', () => {
  for (const [z, below] of [
    [0, 0.5],
    [1, 0.8413],
    [-1, 0.1587],
    [2, 0.9772],
    [-2.5, 0.0062],
  ] as const)
    expect(Math.abs(chance(z) - below)).toBeLessThan(0.0105);
  expect(chance(1e6)).toBeCloseTo(1, 12);
  expect(chance(-1e6)).toBeCloseTo(0, 12);
});

describe('the stay', () => {
  const seen = (metres: number) => {
    const boat = new Boat();
    lie(boat, metres, 1, { distance: Math.sqrt(Math.max(0, metres ** 2 - 64)), heading: 0 });
    return boat.now().stay!;
  };

  test('is as sure as length and height are: sure far from a border, even odds on it', () => {
    expect(seen(30)).toMatchObject({ name: 'long', from: 'cable' });
    expect(seen(30).certainty).toBeGreaterThan(0.99);
    // Short stay begins at 1.6 times the height, up and down at 1.12 times.
    expect(seen(12.8)).toMatchObject({ name: 'short' });
    expect(seen(12.8).certainty).toBeCloseTo(0.5, 2);
    expect(seen(12.9)).toMatchObject({ name: 'long' });
    expect(seen(12.9).certainty).toBeLessThan(0.6);
    expect(seen(10.9)).toMatchObject({ name: 'short' });
    expect(seen(10.9).certainty).toBeGreaterThan(0.97);
    expect(seen(8.97).name).toBe('short');
    expect(seen(8.95)).toMatchObject({ name: 'up-and-down' });
    expect(seen(8.95).certainty).toBeCloseTo(0.5, 1);
    expect(seen(7).certainty).toBeGreaterThan(0.99);
  });

  test('in between it is what the two sigma together leave: one metre of cable, eight of water', () => {
    // 14 m: ratio 1.75, σ = √(0.5² + (1.75 · 0.4)²) ÷ 8 = 0.1075; 0.15 above 1.6: Φ(1.395) = 0.918 [F].
    expect(Math.abs(seen(14).certainty - 0.918)).toBeLessThan(0.011);
  });

  test('by the foredeck’s word is almost sure, aweigh by her movement less', () => {
    const boat = new Boat();
    lie(boat, undefined, 1, { distance: 20, heading: 0 });
    boat.signal('out:25');
    lie(boat, undefined, 4, { distance: 20, heading: 0 });
    expect(boat.now().stay!.from).toBe('foredeck');
    boat.signal('aweigh');
    lie(boat, undefined, 1, { distance: 20, heading: 0 });
    expect(boat.now().stay).toEqual({ name: 'aweigh', certainty: 0.99, from: 'foredeck' });
    const hung = new Boat();
    lie(hung, 5, 6, { distance: 1, heading: 0 });
    expect(hung.now().stay).toEqual({ name: 'aweigh', certainty: 0.9, from: 'cable' });
  });

  test('by distance only, when nobody tells the cable, is less sure by a metre', () => {
    const boat = new Boat();
    delete boat.given.veered;
    lie(boat, undefined, 1, { distance: 9.6, heading: 0 });
    // √(9.6² + 8²) = 12.5 m: ratio 1.562 with σ = √(2.118² + (1.562 · 0.4)²) ÷ 8.
    const sigma = Math.hypot(Math.hypot(1, 0.5) + 1, 1.562 * 0.4) / 8;
    expect(boat.now().stay).toMatchObject({ name: 'short', from: 'distance' });
    expect(boat.now().stay!.certainty).toBeCloseTo(
      chance((1.6 - 1.562) / sigma) - chance((1.12 - 1.562) / sigma),
      2,
    );
  });

  test('is not known without a depth', () => {
    const boat = new Boat();
    boat.depthless = true;
    lie(boat, 20, 5, { distance: 18, heading: 0 });
    expect(boat.now().stay).toBeUndefined();
    expect(boat.now().cable).toBeUndefined();
    expect(boat.now().height).toBeUndefined();
  });

  test('a depth counts for ten minutes', () => {
    const boat = new Boat();
    lie(boat, 20, 1, { distance: 18, heading: 0 });
    boat.depthless = true;
    lie(boat, 20, 600, { distance: 18, heading: 0 });
    expect(boat.now().height).toEqual({ value: 8, sigma: 0.4 });
    lie(boat, 20, 1, { distance: 18, heading: 0 });
    expect(boat.now().height).toBeUndefined();
  });
});

describe('a change', () => {
  test('is told once, when it has lasted three seconds, with distance and length out', () => {
    const boat = new Boat();
    lie(boat, 20, 5, { distance: 15, heading: 0 });
    const before = changes(boat).length;
    expect(changes(boat)[0]).toMatchObject({ stay: 'long' });
    const at = boat.at;
    lie(boat, 11, 3, { distance: 6, heading: 0 });
    expect(boat.now().stay!.name).toBe('long');
    lie(boat, 11, 10, { distance: 6, heading: 0 });
    const told = changes(boat).slice(before);
    expect(told).toContainEqual({
      event: 'weigh',
      t: at + 4,
      stay: 'short',
      ...(boat.state.cable ? { cable: expect.any(String) } : {}),
      distance: expect.closeTo(6, 3),
      out: 11,
    });
    expect(told.filter((event) => 'stay' in event && event.stay === 'short')).toHaveLength(told.length);
    const all = changes(boat).length;
    lie(boat, 11, 30, { distance: 6, heading: 0 });
    expect(changes(boat)).toHaveLength(all);
  });

  test('that goes back in between begins anew', () => {
    const boat = new Boat();
    lie(boat, 20, 5, { distance: 15, heading: 0 });
    for (let i = 0; i < 5; i++) {
      lie(boat, 11, 2, { distance: 15, heading: 0 });
      lie(boat, 20, 2, { distance: 15, heading: 0 });
    }
    expect(boat.now().stay!.name).toBe('long');
  });

  test('an event holds only what is known', () => {
    const boat = new Boat();
    boat.signal('up-and-down');
    boat.signal('aweigh');
    const [first, second] = changes(boat);
    expect(first).toStrictEqual({ event: 'weigh', t: boat.at, stay: 'up-and-down' });
    expect(second).toStrictEqual({ event: 'weigh', t: boat.at, stay: 'aweigh' });
  });
});

describe('signals', () => {
  test('are numbered from one, kept with time and author, and told; the same stay again is no change', () => {
    const boat = new Boat();
    expect(boat.signal('ahead')).toBe(1);
    expect(boat.signal('aweigh')).toBe(2);
    expect(boat.signal('aweigh')).toBe(3);
    expect(boat.now().lastSignal).toEqual({ signal: 'aweigh', number: 3, at: boat.at, by: 'Bo' });
    expect(boat.events.filter(({ event }) => event === 'signal')).toEqual(
      ['ahead', 'aweigh', 'aweigh'].map((signal, i) => ({
        event: 'signal',
        t: boat.at,
        by: 'Bo',
        signal,
        number: i + 1,
      })),
    );
    expect(changes(boat)).toHaveLength(1);
  });

  test('up and down: as much cable is out as the roller is high, told to a metre; aweigh there is no cable state', () => {
    const boat = new Boat();
    lie(boat, undefined, 3, { distance: 1, heading: 0 });
    boat.signal('heaving');
    boat.signal('up-and-down');
    expect(boat.now().out).toEqual({ value: 8, sigma: 1, from: 'foredeck' });
    expect(boat.now().heaving).toBeUndefined();
    boat.signal('heaving');
    boat.signal('aweigh');
    expect(boat.now().heaving).toBeUndefined();
    expect(boat.state.cable).toBeUndefined();
  });
});

describe('the cable', () => {
  const sure = (): Boat => {
    const boat = new Boat();
    boat.sigma = 0.2;
    boat.given.mark.sigma = 0.2;
    return boat;
  };

  test('less than the height is taut, and the surer the less it is', () => {
    const boat = sure();
    lie(boat, 7.9, 1, { distance: 0.5, heading: 0 });
    // 0.1 m less at ± 0.5 m: Φ(0.2) = 0.579 [F].
    expect(boat.now().cable!.state).toBe('taut');
    expect(Math.abs(boat.now().cable!.certainty - 0.579)).toBeLessThan(0.011);
    lie(boat, 7.2, 1, { distance: 0.5, heading: 0 });
    // 0.8 m: Φ(1.6) = 0.945 [F].
    expect(Math.abs(boat.now().cable!.certainty - 0.945)).toBeLessThan(0.011);
  });

  test('is not guessed between bounds, nor when she is aweigh', () => {
    const boat = sure();
    lie(boat, undefined, 3, { distance: 38, heading: 0 });
    lie(boat, undefined, 3, { distance: 20, heading: 0 });
    expect(boat.now().out!.from).toBe('bounds');
    expect(boat.now().cable).toBeUndefined();
    boat.signal('out:25');
    lie(boat, undefined, 1, { distance: 20, heading: 0 });
    expect(boat.now().cable).toBeDefined();
    boat.signal('aweigh');
    lie(boat, undefined, 1, { distance: 20, heading: 0 });
    expect(boat.now().cable).toBeUndefined();
  });

  test('slack and taut are told apart by the distance, and the change is told', () => {
    const boat = sure();
    lie(boat, 30, 5, { distance: 10, heading: 0 });
    expect(boat.state.cable).toBe('slack');
    lie(boat, 20, 10, { distance: 18.3, heading: 0 });
    expect(boat.state.cable).toBe('taut');
    const cables = changes(boat).flatMap((event) => ('cable' in event ? [event.cable] : []));
    expect([...new Set(cables)]).toEqual(['slack', 'taut']);
  });

  test('a change for two seconds is none', () => {
    const boat = sure();
    lie(boat, 30, 5, { distance: 10, heading: 0 });
    lie(boat, 20, 2, { distance: 18.3, heading: 0 });
    lie(boat, 30, 5, { distance: 10, heading: 0 });
    expect(boat.state.cable).toBe('slack');
  });

  test('strain: even odds when the straight line is as long as the cable', () => {
    const boat = sure();
    lie(boat, 20, 1, { distance: Math.sqrt(20 ** 2 - 8 ** 2), heading: 0 });
    expect(boat.now().strain).toBeUndefined();
    boat.signal('snubbed');
    expect(boat.now().strain).toBeCloseTo(0.5, 3);
    lie(boat, 20, 1, { distance: 16, heading: 0 });
    expect(boat.now().strain!).toBeLessThan(0.05);
    boat.signal('aweigh');
    expect(boat.now().strain).toBeUndefined();
  });
});

describe('while she lies to her cable', () => {
  const wind = { from: 0, speed: 8 };
  const lying = (seconds: number, more: (boat: Boat) => void = () => {}, place: Place = {}): Boat => {
    const boat = new Boat();
    more(boat);
    boat.pass(seconds, { distance: 44, heading: 0, wind, ...place });
    return boat;
  };

  test('the measured distance is compared with the computed reach, and what it is wrong by is kept', () => {
    // 40 m of cable from 8 m up reach 39.2 m at most: at 44 m at least 4.8 m are an error of mark, receiver or length.
    const { offset } = lying(30).state;
    expect(offset!.metres).toBeGreaterThan(4.8);
    expect(offset!.metres).toBeLessThan(12);
    expect(offset!.seconds).toBeGreaterThan(20);
    expect(lying(90).state.offset!.seconds).toBe(60);
  });

  test('so a cable that only looks too short for the distance is not called taut afterwards', () => {
    const boat = lying(40);
    const without = new Boat();
    without.pass(1, { distance: 44, heading: 0, wind });
    expect(without.now().cable!.state).toBe('taut');
    expect(without.now().cable!.certainty).toBeGreaterThan(boat.now().cable!.certainty);
  });

  test('is a mean: one odd fix among many moves it little', () => {
    const boat = lying(30);
    const before = boat.state.offset!.metres;
    boat.pass(1, { distance: 44.3, heading: 0, wind });
    expect(Math.abs(boat.state.offset!.metres - before)).toBeLessThan(0.05);
  });

  test('nothing is kept without wind, depth or length, under way, or hove', () => {
    expect(lying(30, () => {}, { wind: undefined }).state.offset).toBeUndefined();
    expect(
      lying(30, (boat) => {
        boat.depthless = true;
      }).state.offset,
    ).toBeUndefined();
    expect(
      lying(30, (boat) => {
        delete boat.given.veered;
      }).state.offset,
    ).toBeUndefined();
    expect(lying(30, (boat) => void boat.signal('heaving')).state).toMatchObject({ underWay: true });
    const moving = new Boat();
    moving.pass(30, (second) => ({ distance: 44 - 0.2 * second, heading: 0, wind }));
    expect(moving.state.offset).toBeUndefined();
    expect(moving.state.underWay).toBeUndefined();
    const ahead = new Boat();
    ahead.pass(30, (second) => ({ distance: 44 - 0.3 * second, heading: 0, wind }));
    expect(ahead.state.underWay).toBe(true);
    ahead.pass(30, { distance: 35, heading: 0, wind });
    expect(ahead.state.offset).toBeUndefined();
  });

  test('a stream across the wind leaves her anywhere: no comparison, unless it is hardly any', () => {
    const stream = (set: number, drift: number) => (boat: Boat) => {
      boat.given.stream = { set: { value: set, sigma: 5 }, drift: { value: drift, sigma: 0.05 } };
    };
    expect(lying(30, stream(90, 0.4)).state.offset).toBeUndefined();
    expect(lying(30, stream(0, 0.4)).state.offset).toBeUndefined();
    expect(lying(30, stream(270, 0.4)).state.offset).toBeUndefined();
    expect(lying(30, stream(90, 0.1)).state.offset).toBeDefined();
    expect(lying(30, stream(200, 0.4)).state.offset).toBeDefined();
    expect(lying(30, stream(160, 0.4)).state.offset).toBeDefined();
  });

  test('a doubtful position tells nothing of it', () => {
    expect(lying(30, () => {}, { doubt: 'it jumped' }).state.offset).toBeUndefined();
  });

  test('another mark begins it anew', () => {
    for (const moved of [{ lat: 0.0001 }, { lon: 0.0001 }]) {
      const boat = lying(30);
      boat.given.mark.lat += 'lat' in moved ? moved.lat : 0;
      boat.given.mark.lon += 'lon' in moved ? moved.lon : 0;
      boat.pass(1, { distance: 44, heading: 0, wind });
      expect(boat.state.track).toHaveLength(1);
      expect(boat.state.offset).toBeUndefined();
    }
  });

  test('four seconds of it are needed before it corrects anything, and it follows what changes slowly', () => {
    const boat = lying(6);
    expect(boat.state.offset!.seconds).toBe(3);
    expect(boat.now().cable).toMatchObject({ state: 'taut' });
    const before = boat.now().cable!.certainty;
    expect(before).toBeGreaterThan(0.9);
    boat.pass(1, { distance: 44, heading: 0, wind });
    const after = boat.now().cable!;
    expect(after.state === 'taut' ? after.certainty : 0).toBeLessThan(before - 0.05);
    const first = boat.state.offset!.metres;
    boat.pass(300, { distance: 46, heading: 0, wind });
    expect(boat.state.offset!.metres).toBeGreaterThan(first + 1.5);
    expect(boat.state.offset!.metres).toBeLessThan(first + 2.05);
  });

  test('rope beyond the chain, and a stream with the wind, let her lie farther off: less is left as an error', () => {
    const light = { wind: { from: 0, speed: 3 } };
    const error = (more: (boat: Boat) => void) => lying(30, more, light).state.offset!.metres;
    const chain = error(() => {});
    expect(
      error((boat) => {
        boat.settings.cable.length = 15;
      }),
    ).toBeLessThan(chain - 0.2);
    expect(
      error((boat) => {
        boat.settings.cable.length = 60;
      }),
    ).toBeCloseTo(chain, 9);
    expect(
      error((boat) => {
        boat.given.stream = { set: { value: 180, sigma: 5 }, drift: { value: 0.8, sigma: 0.05 } };
      }),
    ).toBeLessThan(chain - 0.2);
  });
});

describe('what is not sure', () => {
  test('changes no state of the cable: the first that is likelier than three in five is kept', () => {
    let unsure = 0;
    for (let distance = 10; distance < 19; distance += 0.25) {
      const boat = new Boat();
      lie(boat, 20, 1, { distance, heading: 0 });
      const { state, certainty } = boat.now().cable!;
      if (certainty < 0.6) unsure++;
      expect(boat.state.cable).toBe(certainty >= 0.6 ? state : undefined);
    }
    expect(unsure).toBeGreaterThan(0);
  });

  test('broken out by her movement she has no cable state any more, and the event tells none', () => {
    const boat = new Boat();
    lie(boat, 20, 5, { distance: 12, heading: 0 });
    expect(boat.state.cable).toBeDefined();
    lie(boat, 20, 10, { distance: 40, heading: 0 });
    expect(boat.now().brokenOut).toMatchObject({ from: 'motion' });
    expect(boat.state.cable).toBeUndefined();
    expect(changes(boat).at(-1)).toMatchObject({ stay: 'aweigh' });
    expect(changes(boat).at(-1)).not.toHaveProperty('cable');
  });

  test('no strain is told without distance, height or length', () => {
    const boat = new Boat();
    boat.signal('snubbed');
    lie(boat, 20, 1, { heading: 0 });
    expect(boat.now()).not.toHaveProperty('strain');
    const deaf = new Boat();
    deaf.depthless = true;
    deaf.signal('snubbed');
    lie(deaf, 20, 1, { distance: 18, heading: 0 });
    expect(deaf.now()).not.toHaveProperty('strain');
    const untold = new Boat();
    delete untold.given.veered;
    untold.signal('snubbed');
    lie(untold, undefined, 1, { distance: 18, heading: 0 });
    expect(untold.now()).not.toHaveProperty('strain');
  });

  test('without a mark nothing is done', () => {
    const boat = new Boat();
    expect(onFix(boat.state, boat.settings, boat.view(), undefined)).toEqual([]);
  });
});
