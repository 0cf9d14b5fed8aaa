import { describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../../shared/weigh/cautions.ts';
import { LEAD } from '../../../shared/weigh/limits.ts';
import { holdWind } from '../../../shared/weigh/weigh.ts';
import * as words from '../../../shared/weigh/words.ts';
import { Boat } from './help.ts';

/** Behaviour on invented boats; limits are ours [P]. Facts of the trade: trade.test.ts. */

describe('where the anchor is', () => {
  test('distance with the sigma of mark and fix, bearing, and the lead signed, by clock and by name', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 30, heading: 60 });
    const { distance, bearing, lead } = boat.now();
    expect(distance!.value).toBeCloseTo(30, 3);
    expect(distance!.sigma).toBeCloseTo(Math.hypot(1, 0.5), 6);
    expect(bearing).toBeCloseTo(0, 3);
    expect(lead).toMatchObject({ clock: 10, name: 'on-the-bow', from: 'compass' });
    expect(lead!.angle).toBeCloseTo(-60, 3);
  });

  test.each([
    [0, 12, 'ahead'],
    [29, 1, 'ahead'],
    [-45, 11, 'on-the-bow'],
    [90, 3, 'abeam'],
    [-100, 9, 'abeam'],
    [180, 6, 'under-the-hull'],
    [-150, 7, 'under-the-hull'],
  ])('a lead of %d° is %d o’clock, %s', (angle, clock, name) => {
    const boat = new Boat();
    boat.pass(1, { distance: 30, heading: (360 - angle) % 360 });
    expect(boat.now().lead).toMatchObject({ clock, name });
  });

  test('closing speed of a boat that comes up at 0.4 m/s', () => {
    const boat = new Boat();
    boat.pass(12, (second) => ({ distance: 40 - 0.4 * second, heading: 0 }));
    expect(boat.now().closing!.value).toBeCloseTo(0.4, 2);
  });

  test('nearer than its sigma the direction is unknown, and so without a heading; the foredeck’s word counts for a while', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 1, heading: 0 });
    expect(boat.now().lead).toBeUndefined();
    boat.pass(1, { distance: 30 });
    expect(boat.now().lead).toBeUndefined();
    boat.signal('lead:3');
    expect(boat.now().lead).toMatchObject({ angle: 90, clock: 3, name: 'abeam', from: 'foredeck' });
    boat.signal('lead:12');
    expect(boat.now().lead).toMatchObject({ angle: 0, clock: 12 });
    boat.pass(LEAD.foredeckHolds + 1, { distance: 30 });
    expect(boat.now().lead).toBeUndefined();
  });

  test('without a position there is neither distance nor course, and it says so', () => {
    const boat = new Boat();
    boat.pass(3, { heading: 0 });
    expect(boat.now().distance).toBeUndefined();
    expect(boat.now().noGuidance).toMatch(/no position/);
    expect(boat.now().report).toMatch(/No position/);
  });
});

describe('cable out', () => {
  test('as veered at first; counted down while the foredeck says that it heaves, less and less sure', () => {
    const boat = new Boat();
    boat.pass(2, { distance: 39 });
    expect(boat.now().out).toMatchObject({ value: 40, from: 'veered' });
    boat.signal('heaving');
    boat.pass(20, (second) => ({ distance: 39 - 0.25 * second }));
    const first = boat.now().out!;
    expect(first).toMatchObject({ from: 'counted' });
    expect(first.value).toBeCloseTo(35, 5);
    boat.signal('holding');
    boat.pass(20, { distance: 34 });
    expect(boat.now().out!.value).toBeCloseTo(35, 5);
    expect(first.sigma).toBeGreaterThan(1.5);
  });

  test('two marks of the chain told with heaving between them tell the windlass’s rate', () => {
    const boat = new Boat();
    boat.signal('heaving');
    boat.signal('out:40');
    boat.pass(20, { distance: 30 });
    boat.signal('out:30');
    boat.pass(10, { distance: 20 });
    expect(boat.now().out!.value).toBeCloseTo(25, 5);
  });

  test('a chain counter of the told name goes before all else, until it falls silent', () => {
    const boat = new Boat();
    boat.signal('out:30');
    boat.pass(1, { distance: 20 });
    boat.counter(99, 'OTHER');
    expect(boat.now().out).toMatchObject({ value: 30, from: 'foredeck' });
    boat.counter(22);
    expect(boat.now().out).toMatchObject({ value: 22, sigma: 0.5, from: 'counter' });
    boat.pass(13, { distance: 20 });
    expect(boat.now().out).toMatchObject({ value: 30, from: 'foredeck' });
  });

  test('when nobody tells anything it is only bounded once she has come up: no number without its sigma', () => {
    const boat = new Boat();
    boat.pass(20, (second) => ({ distance: 38 - second }));
    const { out, stay } = boat.now();
    expect(out!.from).toBe('bounds');
    expect(out!.sigma).toBeGreaterThan(4);
    expect(stay).toMatchObject({ from: 'distance' });
    boat.given = { mark: boat.given.mark };
    expect(boat.now().out).toBeUndefined();
  });
});

describe('stay', () => {
  test('long, short, up and down as the cable comes in, each with an event, and with hysteresis', () => {
    const boat = new Boat();
    const told: string[] = [];
    for (const out of [40, 20, 13, 12.5, 13.5, 12, 9.5, 8.9, 9.5, 8.9]) {
      boat.counter(out);
      boat.pass(5, { distance: Math.sqrt(Math.max(0, out * out - 64)) * 0.98, heading: 0 });
      told.push(boat.now().stay!.name);
    }
    expect(told).toEqual([
      'long',
      'long',
      'long',
      'short',
      'short',
      'short',
      'short',
      'up-and-down',
      'up-and-down',
      'up-and-down',
    ]);
    const stays = boat.events.flatMap((event) => (event.event === 'weigh' && event.stay ? [event.stay] : []));
    expect([...new Set(stays)]).toEqual(['long', 'short', 'up-and-down']);
  });

  test('a single odd reading changes nothing', () => {
    const boat = new Boat();
    boat.counter(30);
    boat.pass(5, { distance: 28 });
    boat.counter(9);
    boat.pass(1, { distance: 28 });
    boat.counter(30);
    boat.pass(5, { distance: 28 });
    expect(boat.now().stay!.name).toBe('long');
  });

  test('the foredeck says up and down and aweigh; up and down again takes a mistaken aweigh back', () => {
    const boat = new Boat();
    boat.pass(3, { distance: 1, heading: 0 });
    boat.signal('up-and-down');
    expect(boat.now().stay).toMatchObject({ name: 'up-and-down', from: 'foredeck' });
    expect(boat.now().out!.value).toBeCloseTo(8, 5);
    boat.signal('aweigh');
    expect(boat.now()).toMatchObject({ stay: { name: 'aweigh' }, brokenOut: { from: 'foredeck' } });
    expect(boat.now().guidance).toBeUndefined();
    boat.signal('up-and-down');
    expect(boat.now().brokenOut).toBeUndefined();
    expect(boat.now().stay!.name).toBe('up-and-down');
  });
});

describe('broken out and adrift', () => {
  const upAndDown = () => {
    const boat = new Boat();
    boat.counter(8.3);
    boat.pass(10, { distance: 1, heading: 0 });
    expect(boat.now().stay!.name).toBe('up-and-down');
    return boat;
  };

  test('carried away from where she was up and down: broken out, an alarm, since nobody has said so', () => {
    const boat = upAndDown();
    const changes = boat.pass(60, (second) => {
      boat.counter(8.3);
      return { distance: 1 + 0.4 * second, heading: 0 };
    });
    const raised = changes.filter((change) => change.includes('+'));
    expect(raised).toEqual([expect.stringMatching(/^(1|2|3)\d \+adrift$/)]);
    expect(boat.found[0]).toMatchObject({ priority: 'alarm', text: expect.stringContaining('broken out') });
    expect(boat.now().adrift!.toward).toBeCloseTo(180, 0);
    expect(boat.now().adrift!.speed).toBeCloseTo(0.4, 1);
  });

  test('told aweigh and motoring off along her heading: no alert', () => {
    const boat = upAndDown();
    boat.signal('aweigh');
    expect(boat.pass(60, (second) => ({ distance: 0.8 * second, from: 0, heading: 0 }))).toEqual([]);
    expect(boat.now().adrift).toBeDefined();
  });

  test('told aweigh, carried sideways with the circle’s edge near: a warning with the metres left', () => {
    const boat = upAndDown();
    boat.given.circleRadius = 30;
    boat.signal('aweigh');
    const changes = boat.pass(30, (second) => ({ distance: 0.5 * second, from: 90, heading: 0 }));
    expect(changes.at(-1)).toMatch(/\+adrift/);
    expect(boat.now().adrift!.edge).toBeCloseTo(15, 0);
    expect(boat.found[0]!.priority).toBe('warning');
  });

  test('into shoaling water: metres until the keel has less than half a metre', () => {
    const boat = upAndDown();
    boat.signal('aweigh');
    boat.pass(20, (second) => ({ distance: 0.5 * second, heading: 0, depth: 6.5 - 0.05 * second }));
    // 5.5 m of water after 20 s, 3.6 under the keel, and 0.1 m less for each metre: 31 m.
    expect(boat.now().adrift!.shoal).toBeCloseTo(31, 0);
  });

  test('less cable than water: aweigh, whoever says so or not', () => {
    const boat = upAndDown();
    boat.counter(5);
    boat.pass(6, { distance: 1, heading: 0 });
    expect(boat.now()).toMatchObject({ brokenOut: { from: 'cable' }, stay: { name: 'aweigh' } });
  });

  test('she sheers about at short stay: still held', () => {
    const boat = new Boat();
    boat.counter(11);
    boat.pass(120, (second) => {
      boat.counter(11);
      return { distance: 7, from: 180 + 40 * Math.sin(second / 10), heading: 0 };
    });
    expect(boat.now().brokenOut).toBeUndefined();
  });
});

describe('warnings', () => {
  test.each([
    ['monohull', 50, 70],
    ['catamaran', 35, 55],
    ['trimaran', 45, 65],
  ] as const)('lead-foul on a %s: not at %d°, but at %d°', (hull, fair, foul) => {
    const boat = new Boat(hull);
    boat.signal('heaving');
    boat.signal('out:25');
    boat.signal('holding');
    expect(boat.pass(10, { distance: 24, heading: fair })).toEqual([]);
    expect(boat.pass(10, { distance: 24, heading: foul })).toEqual(['4 +lead-foul']);
    expect(boat.found[0]!.text).toContain(`${foul}° on the port bow`);
    expect(boat.pass(10, { distance: 24, heading: fair })).toEqual(['6 -lead-foul']);
  });

  test('a short swing of the bow is no foul lead; a doubtful position says nothing new', () => {
    const boat = new Boat();
    boat.signal('heaving');
    boat.signal('out:25');
    boat.signal('holding');
    expect(boat.pass(2, { distance: 24, heading: 90 })).toEqual([]);
    boat.pass(2, { distance: 24, heading: 0 });
    expect(boat.pass(10, { distance: 24, heading: 90, doubt: 'it jumped' })).toEqual([]);
  });

  test('before anything is hove she may sheer; a cable that stays foul is told all the same', () => {
    const boat = new Boat();
    expect(boat.pass(15, { distance: 38, heading: 90 })).toEqual([]);
    boat.pass(2, { distance: 38, heading: 0 });
    expect(boat.pass(30, { distance: 38, heading: 140 })).toEqual(['21 +lead-foul']);
  });

  test('the foredeck points abeam: told at once, whatever the compass says', () => {
    const boat = new Boat();
    boat.signal('heaving');
    boat.signal('lead:2');
    expect(boat.pass(5, { distance: 20, heading: 0 })).toEqual([]);
    boat.signal('lead:3');
    expect(boat.pass(5, { distance: 20, heading: 0 })).toEqual(['4 +lead-foul']);
    expect(boat.found[0]!.text).toContain('(foredeck)');
  });

  test('cable-taut: when the windlass heaves a taut cable, not when it is snubbed or only lies taut', () => {
    const boat = new Boat();
    boat.sigma = 0.2;
    boat.given.mark.sigma = 0.2;
    boat.counter(20);
    const taut = () => {
      boat.counter(20);
      return { distance: 19.5, heading: 0 };
    };
    expect(boat.pass(10, taut)).toEqual([]);
    boat.signal('heaving');
    expect(boat.pass(10, taut)).toEqual(['6 +cable-taut']);
    expect(boat.found[0]!.text).toMatch(/come ahead/);
    boat.signal('snubbed');
    expect(boat.pass(10, taut)).toEqual(['7 -cable-taut']);
    expect(boat.now()).toMatchObject({ snubbed: true, strain: expect.any(Number) });
    expect(boat.now().strain!).toBeGreaterThan(0.9);
  });

  test('overrun: past the anchor with the cable short, one alert for it; and gone when she has fallen back', () => {
    const boat = new Boat();
    boat.signal('out:14');
    expect(boat.pass(5, { distance: 6, heading: 0 })).toEqual([]);
    expect(boat.pass(10, { distance: 4, from: 0, heading: 0 })).toEqual(['4 +overrun']);
    expect(boat.found).toHaveLength(1);
    expect(boat.found[0]!.text).toContain('4.0 m');
    expect(boat.pass(10, { distance: 6, heading: 0 })).toEqual(['6 -overrun']);
  });

  test('past it by less than its sigma: nothing', () => {
    const boat = new Boat();
    boat.sigma = 5;
    boat.signal('out:14');
    expect(boat.pass(10, { distance: 4, from: 0, heading: 0 })).toEqual([]);
  });
});

describe('the helm', () => {
  test('marks a wind angle and sees how far the wind is from it', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 30, heading: 0 });
    expect(holdWind(boat.state, boat.view(), undefined)).toBe(false);
    boat.pass(1, { distance: 30, heading: 0, wind: { from: 20, speed: 8 } });
    expect(holdWind(boat.state, boat.view(), undefined)).toBe(true);
    expect(boat.now().held).toEqual({ angle: 20, deviation: 0 });
    holdWind(boat.state, boat.view(), -10);
    expect(boat.now().held).toEqual({ angle: -10, deviation: 30 });
    holdWind(boat.state, boat.view(), null);
    expect(boat.now().held).toBeUndefined();
  });

  test('hears which of wind and stream takes her', () => {
    const boat = new Boat();
    boat.given.stream = { set: { value: 90, sigma: 5 }, drift: { value: 0.6, sigma: 0.1 } };
    const wind = { from: 0, speed: 5 };
    boat.pass(12, (second) => ({ distance: 10 + 0.5 * second, from: 90, heading: 0, wind }));
    expect(boat.now().taking).toMatchObject({ by: 'stream' });
    boat.pass(12, (second) => ({ distance: 22 + 0.3 * second, from: 180, heading: 0, wind }));
    expect(boat.now().taking).toMatchObject({ by: 'wind' });
  });

  test('gets a plain sentence', () => {
    const boat = new Boat();
    boat.signal('out:25');
    boat.pass(5, { distance: 20, heading: 10, wind: { from: 30, speed: 6 } });
    expect(boat.now().report).toMatch(
      /^20 m \(± 2\.2 m\) to the anchor, bearing 000°, cable leads 10° on the port bow, long stay, .*25 m out\. Steer \d{3}°, wind \d+° on the starboard bow; /,
    );
  });
});

test('state is plain data: saved and read again it goes on as before', () => {
  const boat = new Boat();
  boat.signal('heaving');
  boat.pass(30, (second) => ({ distance: 38 - 0.3 * second, heading: 5, wind: { from: 0, speed: 7 } }));
  const before = boat.now();
  boat.state = JSON.parse(JSON.stringify(boat.state));
  expect(boat.now()).toEqual(before);
  expect(JSON.stringify(before)).not.toContain('null');
});

test('nothing that hawse says tells anyone to pull the boat with the windlass or to touch a loaded chain', () => {
  const boat = new Boat();
  boat.pass(2, { distance: 30, heading: 80 });
  const said = [
    ...CAUTIONS.map(({ text }) => text),
    words.cableTaut(true),
    words.cableTaut(false),
    words.overrun(3),
    words.leadFoul(boat.now().lead!),
    words.adrift(undefined, false),
  ];
  for (const text of said) {
    // Where windlass or hand is named, it is to forbid or to put behind the maker's word.
    if (/windlass/i.test(text)) expect(text).toMatch(/never pull|must not pull|manuals/i);
    if (/hand/i.test(text)) expect(text).toMatch(/clear/i);
  }
  for (const word of ['windlass', 'clear', 'overrun', 'saildrive', 'manuals', 'hair'])
    expect(CAUTIONS.some(({ text }) => text.toLowerCase().includes(word))).toBe(true);
});
