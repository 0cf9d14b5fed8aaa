import { describe, expect, test } from 'vitest';
import { isUnderWay } from '../../../shared/weigh/adrift.ts';
import { Boat, type Place } from './help.ts';

/** When the anchor is taken to have broken out, and how she is carried then. Invented boat, 8 m from roller to bottom; limits are ours [P]. */

/** A place by metres east and north of the mark. */
const place = (east: number, north: number, more: Place = {}): Place => ({
  distance: Math.hypot(east, north),
  from: ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
  heading: 0,
  ...more,
});

/** Up and down by the counter, over the mark, whose own place is coarse: only her own movement can tell that she has left. */
function over(where: (second: number) => Place = () => place(0, 0.1)): Boat {
  const boat = new Boat();
  boat.given.mark.sigma = 20;
  stay(boat, 8.3, 20, where);
  expect(boat.now().stay!.name).toBe('up-and-down');
  return boat;
}

/** Lives on with the counter at this length. */
const stay = (boat: Boat, metres: number, seconds: number, where: (second: number) => Place) =>
  boat.pass(seconds, (second) => {
    boat.counter(metres);
    return where(second);
  });

// 8.3 m ± 1 m of cable from 8 m up reach √(9.3² − 8²) = 4.7 m, and three more are the receiver's: 7.7 m.
const WAYS = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
] as const;

describe('from up and down, whatever the mark is worth', () => {
  test.each(WAYS)('7 m away (%d east, %d north) she may still hang on it; 9 m away she does not', (x, y) => {
    const held = over();
    stay(held, 8.3, 30, () => place(7 * x, 7 * y));
    expect(held.now().brokenOut).toBeUndefined();
    const loose = over();
    const left = loose.at;
    stay(loose, 8.3, 30, () => place(9 * x, 9 * y));
    expect(loose.now().brokenOut).toEqual({ at: left + 5, from: 'motion' });
  });

  test('carried off slowly she leaves the place that she was over, which does not follow her', () => {
    const boat = over();
    stay(boat, 8.3, 60, (second) => place(0, 0.2 * second));
    expect(boat.now().brokenOut).toMatchObject({ from: 'motion' });
  });

  test('that place is a mean: an odd fix at first hardly moves it', () => {
    for (const [x, y] of WAYS) {
      const boat = over((second) => (second <= 2 ? place(-4 * x, -4 * y) : place(0.01 * x, 0.01 * y)));
      stay(boat, 8.3, 30, () => place(6.5 * x, 6.5 * y));
      expect(boat.now().brokenOut).toBeUndefined();
    }
  });

  test('without a heading the antenna swings round the roller: twice their distance is allowed on top', () => {
    const still = (metres: number): Place => ({ ...place(0, metres), heading: undefined });
    const boat = over(() => still(0.1));
    stay(boat, 8.3, 30, () => still(7.7 + 2 * 9 - 1));
    expect(boat.now().brokenOut).toBeUndefined();
    stay(boat, 8.3, 30, () => still(7.7 + 2 * 9 + 1));
    expect(boat.now().brokenOut).toMatchObject({ from: 'motion' });
  });

  test('a doubtful position is no movement', () => {
    const boat = over();
    stay(boat, 8.3, 60, () => place(0, 30, { doubt: 'it jumped' }));
    expect(boat.now().brokenOut).toBeUndefined();
  });

  test('the place is taken anew when she has been at a longer stay between', () => {
    const boat = over();
    stay(boat, 20, 20, () => place(0, 12));
    stay(boat, 8.3, 20, () => place(0, 12));
    expect(boat.now().brokenOut).toBeUndefined();
  });
});

describe('farther from the mark than a taut cable reaches', () => {
  // 20 m ± 1 m from 8 m up: √(21² − 8²) = 19.4 m; three sigma of mark and fix on top.
  test.each([
    [0.5, 22.5, 23.1],
    [3, 28.6, 29.2],
  ])('by three sigma (fix ± %d m): not at %d m, but at %d m', (sigma, held, loose) => {
    const boat = new Boat();
    boat.sigma = sigma;
    stay(boat, 20, 30, () => place(0, held));
    expect(boat.now().brokenOut).toBeUndefined();
    stay(boat, 20, 30, () => place(0, loose));
    expect(boat.now().brokenOut).toMatchObject({ from: 'motion' });
  });

  test('for three seconds only: nothing', () => {
    const boat = new Boat();
    stay(boat, 20, 10, () => place(0, 15));
    stay(boat, 20, 4, () => place(0, 30));
    stay(boat, 20, 10, () => place(0, 15));
    expect(boat.now().brokenOut).toBeUndefined();
  });
});

test('less cable than water, by half a metre and two sigma: 6.5 m may still hold, 6 m hangs', () => {
  const boat = over();
  stay(boat, 6.5, 30, () => place(0, 0.1));
  expect(boat.now().brokenOut).toBeUndefined();
  const at = boat.at;
  stay(boat, 6, 10, () => place(0, 0.1));
  expect(boat.now().brokenOut).toEqual({ at: at + 5, from: 'cable' });
});

describe('aweigh and carried', () => {
  const aweigh = (circleRadius?: number): Boat => {
    const boat = over(() => place(0.1, 0));
    if (circleRadius !== undefined) boat.given.circleRadius = circleRadius;
    boat.signal('aweigh');
    return boat;
  };

  test('slower than 0.2 m/s she lies still', () => {
    const boat = aweigh();
    boat.pass(30, (second) => place(0.15 * second, 0));
    expect(boat.now().adrift).toBeUndefined();
    boat.pass(30, (second) => place(4.5 + 0.25 * second, 0));
    expect(boat.now().adrift!.speed).toBeCloseTo(0.25, 3);
    expect(boat.now().adrift!.toward).toBeCloseTo(90, 3);
  });

  test('metres to the edge of the circle along her way, from any place in it', () => {
    const boat = aweigh(30);
    boat.pass(20, (second) => place(12, 9 - 0.5 * (20 - second)));
    // North through x = 12: √(30² − 12²) − 9.
    expect(boat.now().adrift!.edge).toBeCloseTo(Math.sqrt(756) - 9, 1);
    const back = aweigh(30);
    back.pass(20, (second) => place(12 + 0.5 * (20 - second), -9));
    // West through y = −9: √(30² − 9²) + 12.
    expect(back.now().adrift!.edge).toBeCloseTo(Math.sqrt(819) + 12, 1);
  });

  test('outside the circle nothing is left; without a circle there is no edge', () => {
    const out = aweigh(30);
    out.pass(20, (second) => place(25 + 0.5 * second, 0));
    expect(out.now().adrift!.edge).toBe(0);
    const none = aweigh();
    none.pass(20, (second) => place(0.5 * second, 0));
    expect(none.now().adrift).not.toHaveProperty('edge');
    expect(none.now().adrift).not.toHaveProperty('shoal');
  });

  test('a bottom that falls away or is level is no shoal; no water under the keel is one now', () => {
    const deeper = aweigh();
    deeper.pass(20, (second) => place(0.5 * second, 0, { depth: 6.5 + 0.05 * second }));
    expect(deeper.now().adrift!.shoal).toBeUndefined();
    const silent = aweigh();
    silent.depthless = true;
    silent.pass(20, (second) => place(0.5 * second, 0));
    expect(silent.now().adrift).not.toHaveProperty('shoal');
    const aground = aweigh();
    aground.pass(20, (second) => place(0.5 * second, 0, { depth: 2.3 }));
    expect(aground.now().adrift!.shoal).toBe(0);
  });

  test('a bottom that rises so gently that it is far off is no shoal', () => {
    const boat = aweigh();
    // 4.1 m of water to spare at 1 cm a metre: 410 m off; at 2 cm, 205 m.
    boat.pass(20, (second) => place(0.5 * second, 0, { depth: 6.5 - 0.005 * second }));
    expect(boat.now().adrift!.shoal).toBeUndefined();
    const nearer = aweigh();
    nearer.pass(20, (second) => place(0.5 * second, 0, { depth: 6.5 - 0.01 * second }));
    expect(nearer.now().adrift!.shoal).toBeCloseTo((6.3 - 1.9 - 0.5) / 0.02, -1);
  });

  test.each([
    [0, false],
    [45, false],
    [60, true],
    [180, true],
    [315, false],
    [290, true],
  ])('heading %d°, carried north to the edge: adrift is %s', (heading, raised) => {
    const boat = aweigh(30);
    boat.pass(40, (second) => place(0, 0.5 * second, { heading }));
    expect(boat.found.map(({ kind }) => kind)).toEqual(raised ? ['adrift'] : []);
  });

  test('told aweigh, the edge counts from a minute off; untold it is an alarm wherever she is', () => {
    const told = aweigh(100);
    told.pass(60, (second) => place(0.5 * second, 0));
    expect(told.found).toEqual([]);
    told.pass(30, (second) => place(30 + 0.5 * second, 0));
    expect(told.found).toEqual([]);
    // 100 − 68 m is more than 0.5 m/s · 60 s, 100 − 72 m less.
    told.pass(46, (second) => place(45 + 0.5 * second, 0));
    expect(told.found).toEqual([]);
    told.pass(10, (second) => place(68 + 0.5 * second, 0));
    expect(told.found).toMatchObject([
      { kind: 'adrift', priority: 'warning', value: expect.closeTo(0.5, 2) },
    ]);
    const untold = over();
    stay(untold, 8.3, 40, (second) => place(0, 0.4 * second, { heading: 90 }));
    expect(untold.found).toMatchObject([{ kind: 'adrift', priority: 'alarm' }]);
  });

  test('broken out untold and moving along her heading: somebody steers her', () => {
    const boat = over();
    stay(boat, 8.3, 60, (second) => place(0, 0.4 * second));
    expect(boat.now().brokenOut).toMatchObject({ from: 'motion' });
    expect(boat.found).toEqual([]);
  });

  test('without a heading nobody can be said to steer: it is an alarm', () => {
    const boat = over(() => ({ ...place(0, 0.1), heading: undefined }));
    expect(isUnderWay(boat.view(), 0)).toBeUndefined();
    stay(boat, 8.3, 90, (second) => ({ ...place(0, 0.6 * second), heading: undefined }));
    expect(boat.found).toMatchObject([{ kind: 'adrift', priority: 'alarm' }]);
  });
});

describe('what takes her', () => {
  const going = (toward: 'north' | 'south', speed: number, wind?: Place['wind'], set?: number) => {
    const boat = new Boat();
    if (set !== undefined)
      boat.given.stream = { set: { value: set, sigma: 5 }, drift: { value: 0.4, sigma: 0.1 } };
    const sign = toward === 'north' ? 1 : -1;
    boat.pass(15, (second) => place(0, sign * speed * second, { wind }));
    return boat.now().taking?.by;
  };
  test('wind and stream that push one way are both; against both it is the engine', () => {
    const northerly = { from: 0, speed: 10 };
    expect(going('south', 0.4, northerly, 180)).toBe('both');
    expect(going('south', 0.4, northerly, 140)).toBe('both');
    expect(going('south', 0.4, northerly, 90)).toBe('wind');
    expect(going('south', 0.4, northerly)).toBe('wind');
    expect(going('south', 0.4, undefined, 180)).toBe('stream');
    expect(going('north', 0.4, northerly, 180)).toBeUndefined();
    expect(going('south', 3, northerly, 180)).toBeUndefined();
    expect(going('south', 0.4)).toBeUndefined();
    expect(going('south', 0.08, northerly, 180)).toBeUndefined();
  });
});
