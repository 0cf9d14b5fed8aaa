import { describe, expect, test } from 'vitest';
import { Boat, type Place } from './help.ts';

/** What the helm is given to steer, and from what. Invented boat, her anchor north of her; triangles by hand. */
const lying = (place: Place, more: (boat: Boat) => void = () => {}, seconds = 8): Boat => {
  const boat = new Boat();
  more(boat);
  boat.pass(seconds, { distance: 30, heading: 0, ...place });
  return boat;
};
const steer = (boat: Boat) => boat.now().guidance!;
const near = (angle: number) => ((angle + 540) % 360) - 180;

describe('the course', () => {
  test('is the bearing of the anchor in still water, and the turn is from the heading', () => {
    const guidance = steer(lying({ heading: 20 }));
    expect(near(guidance.course)).toBeCloseTo(0, 6);
    expect(guidance.turn).toBeCloseTo(-20, 6);
    expect(steer(lying({ heading: 340 })).turn).toBeCloseTo(20, 6);
    expect(steer(lying({ heading: undefined }))).not.toHaveProperty('turn');
  });

  test.each([
    [3, 130],
    [9, 310],
    [12, 40],
  ])('where the foredeck points, %d o’clock from a heading of 40°, it is %d°', (clock, course) => {
    const boat = lying({ heading: 40 });
    boat.signal(`lead:${clock}`);
    expect(steer(boat).course).toBeCloseTo(course, 6);
  });

  test('nearer than one and a half sigma only the foredeck knows', () => {
    // σ of the distance is 1.118 m: 1.68 m.
    expect(steer(lying({ distance: 1.72 }))).toBeDefined();
    const blind = lying({ distance: 1.64 });
    expect(blind.now().guidance).toBeUndefined();
    expect(blind.now().noGuidance).toMatch(/^Too near/);
    blind.signal('lead:2');
    expect(steer(blind).course).toBeCloseTo(60, 6);
    expect(blind.now().noGuidance).toBeUndefined();
  });

  test('aims up-stream by the triangle of velocities, and the log’s own measure goes before the estimate', () => {
    const easterly = (boat: Boat) => {
      boat.given.stream = { set: { value: 90, sigma: 5 }, drift: { value: 0.35, sigma: 0.05 } };
    };
    // 0.35 m/s across at 0.7 m/s through the water: 30° to port.
    const boat = lying({}, easterly);
    expect(near(steer(boat).course)).toBeCloseTo(-30, 4);
    boat.state.drift = { east: -0.35, north: 0, at: boat.at };
    expect(near(steer(boat).course)).toBeCloseTo(-30, 4);
    boat.state.underWay = true;
    expect(near(steer(boat).course)).toBeCloseTo(30, 4);
    boat.state.drift.at = boat.at - 10;
    expect(near(steer(boat).course)).toBeCloseTo(30, 4);
    boat.state.drift.at = boat.at - 10.5;
    expect(near(steer(boat).course)).toBeCloseTo(-30, 4);
  });

  test('leeway is allowed for by its reckoning, unless it is in the measured drift', () => {
    const boat = lying({ wind: { from: 90, speed: 8 } });
    // Pushed west by the easterly wind: the bow looks to the east of the anchor.
    expect(near(steer(boat).course)).toBeGreaterThan(3);
    boat.state.underWay = true;
    boat.state.drift = { east: 0, north: 0, at: boat.at };
    expect(near(steer(boat).course)).toBeCloseTo(0, 6);
    expect(steer(boat).leeway).toBe(0);
  });
});

describe('the speed', () => {
  test('through the water is the crew’s, or 0.7 m/s', () => {
    expect(steer(lying({})).throughWater).toBeCloseTo(0.7, 9);
    const chosen = lying({}, (boat) => {
      boat.settings.weigh = { approachSpeed: 0.9 };
    });
    expect(steer(chosen).throughWater).toBeCloseTo(0.9, 9);
  });

  test('a boat that lies still is told to come ahead, one that closes as she should is not', () => {
    // As much cable as just reaches her, so that none hangs slack.
    const still = lying({}, (boat) => {
      boat.given.veered = 31;
    });
    expect(steer(still).closing).toBeCloseTo(0.5, 9);
    expect(steer(still)).toMatchObject({ ahead: 1, engine: 'ahead' });
    const coming = new Boat();
    coming.pass(12, (second) => {
      const distance = 40 - 0.5 * second;
      coming.counter(Math.hypot(distance, 8));
      return { distance, heading: 0 };
    });
    expect(steer(coming).ahead).toBeCloseTo(0, 2);
  });

  const counted = (metres: number, distance: number, more: (boat: Boat) => void = () => {}) => {
    const boat = new Boat();
    boat.sigma = 0.2;
    boat.given.mark.sigma = 0.2;
    more(boat);
    boat.pass(8, () => {
      boat.counter(metres);
      return { distance, heading: 0 };
    });
    return boat;
  };

  test('is none while the cable surely hangs slack, so that she never overruns it', () => {
    const slack = counted(30, 10);
    expect(slack.now().cable!.state).toBe('slack');
    expect(slack.now().cable!.certainty).toBeGreaterThan(0.8);
    expect(steer(slack).closing).toBe(0);
    const taut = counted(20, 18);
    expect(steer(taut).closing).toBeCloseTo(18 / 40, 9);
  });

  test('is slowest over the last four metres of cable, or as many as the crew says', () => {
    expect(counted(12.1, 8.9).now().nearEnd).toBeUndefined();
    const last = counted(11.9, 8.7);
    expect(last.now().nearEnd).toBe(true);
    expect(steer(last).closing).toBe(0.08);
    const own = (boat: Boat) => {
      boat.settings.weigh = { slowWithin: 3 };
    };
    expect(counted(11.9, 8.7, own).now().nearEnd).toBeUndefined();
    expect(counted(10.9, 7.3, own).now().nearEnd).toBe(true);
  });

  test('without a known length the distance says it, with its sigma', () => {
    const untold = (boat: Boat) => {
      delete boat.given.veered;
    };
    expect(lying({ distance: 5.2 }, untold).now().nearEnd).toBeUndefined();
    expect(lying({ distance: 5 }, untold).now().nearEnd).toBe(true);
  });
});

test('aweigh there is nothing to steer for', () => {
  const boat = lying({});
  boat.signal('aweigh');
  expect(boat.now()).not.toHaveProperty('guidance');
  expect(boat.now()).not.toHaveProperty('noGuidance');
  expect(boat.now()).not.toHaveProperty('nearEnd');
});

test('the helm sees the last signal and when weighing began; what is not known is absent', () => {
  const boat = new Boat();
  expect(boat.now()).not.toHaveProperty('lastSignal');
  boat.signal('heaving');
  expect(boat.now()).toMatchObject({
    since: boat.at,
    heaving: true,
    lastSignal: { signal: 'heaving', number: 1 },
  });
  const view = boat.now();
  for (const [name, value] of Object.entries(view)) expect(value, name).toBeDefined();
  expect(view).not.toHaveProperty('snubbed');
  boat.signal('snubbed');
  expect(boat.now()).toMatchObject({ snubbed: true });
});
