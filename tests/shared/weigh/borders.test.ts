import { describe, expect, test } from 'vitest';
import { rangeOf } from '../../../shared/weigh/range.ts';
import { Boat, type Place } from './help.ts';

/** Borders of the weighing monitor's warnings and of what it measures. Invented boat, 8 m from roller to bottom; limits are ours [P]. */
const worked = (hull?: 'catamaran'): Boat => {
  const boat = new Boat(hull);
  boat.signal('heaving');
  boat.signal('out:25');
  boat.signal('holding');
  return boat;
};
const kinds = (boat: Boat) => boat.found.map(({ kind }) => kind);

describe('lead-foul', () => {
  const leads = (angle: number, more: Place = {}): Place => ({
    distance: 24,
    heading: (360 - angle) % 360,
    ...more,
  });

  test.each([1, -1])('ends ten degrees inside its limit, not before; to either side (%d)', (side) => {
    const boat = worked();
    boat.pass(10, leads(66 * side));
    expect(kinds(boat)).toEqual(['lead-foul']);
    expect(boat.found[0]).toMatchObject({ value: expect.closeTo(66, 3), limit: 65 });
    boat.pass(60, leads(60 * side));
    expect(kinds(boat)).toEqual(['lead-foul']);
    boat.pass(60, leads(54 * side));
    expect(kinds(boat)).toEqual([]);
    boat.pass(60, leads(60 * side));
    expect(kinds(boat)).toEqual([]);
  });

  test('a clock hour has the benefit of ten degrees: two o’clock is fair, three is foul', () => {
    const boat = worked('catamaran');
    boat.pass(1, { distance: 24 });
    boat.signal('lead:2');
    boat.pass(10, { distance: 24 });
    // 60° less 10° is the catamaran's limit of 50°, not beyond it.
    expect(kinds(boat)).toEqual([]);
    boat.signal('lead:3');
    boat.pass(10, { distance: 24 });
    expect(kinds(boat)).toEqual(['lead-foul']);
  });

  test('what the foredeck points out while it heaves is told within seconds, also without position or heading', () => {
    const boat = worked();
    boat.signal('lead:9');
    boat.pass(10, {});
    expect(kinds(boat)).toEqual(['lead-foul']);
  });

  test('stays when lead and position are lost, and says so', () => {
    const boat = worked();
    boat.pass(10, leads(80));
    boat.pass(30, {});
    expect(boat.found).toEqual([
      { kind: 'lead-foul', priority: 'warning', text: expect.stringMatching(/not known now/) },
    ]);
  });

  test('up and down, or hanging surely slack, it bears on nothing; unless the foredeck sees it', () => {
    const down = worked();
    down.pass(3, leads(0));
    down.signal('up-and-down');
    down.pass(20, { distance: 3, heading: 270 });
    expect(kinds(down)).not.toContain('lead-foul');
    const slack = new Boat();
    slack.sigma = 0.2;
    slack.given.mark.sigma = 0.2;
    slack.signal('heaving');
    slack.signal('holding');
    slack.signal('out:30');
    slack.pass(20, { distance: 12, heading: 270 });
    expect(slack.now().cable).toMatchObject({ state: 'slack' });
    expect(kinds(slack)).not.toContain('lead-foul');
    slack.signal('lead:3');
    slack.pass(10, { distance: 12, heading: 270 });
    expect(kinds(slack)).toContain('lead-foul');
  });
});

test('a cable that is only likely to be slack may still lead foul', () => {
  const at = (distance: number) => {
    const boat = new Boat();
    boat.signal('heaving');
    boat.signal('holding');
    boat.signal('out:30');
    boat.pass(20, { distance, heading: 270 });
    return boat;
  };
  const likely = Array.from({ length: 40 }, (_, i) => at(14 + 0.4 * i)).filter((boat) => {
    const { cable } = boat.now();
    return cable?.state === 'slack' && cable.certainty < 0.8;
  });
  expect(likely.length).toBeGreaterThan(0);
  for (const boat of likely) expect(kinds(boat)).toContain('lead-foul');
});

describe('overrun', () => {
  const past = (metres: number, more: Place = {}): Place => ({
    distance: metres,
    from: 0,
    heading: 0,
    ...more,
  });

  test('counts beyond the sigma of the distance, along the keel, with its metres', () => {
    const boat = new Boat();
    boat.signal('out:14');
    boat.pass(20, past(1));
    expect(kinds(boat)).toEqual([]);
    boat.pass(20, past(3, { heading: 60 }));
    // 3 m past at 60° to the keel: 1.5 m.
    expect(boat.found).toMatchObject([{ kind: 'overrun', value: expect.closeTo(1.5, 3) }]);
  });

  test('less than its sigma past, though the direction is known well enough: nothing', () => {
    const boat = new Boat();
    boat.signal('out:14');
    // Known to ± 1.12 m; 2 m past at 60° to the keel is 1.0 m, at 50° 1.3 m.
    boat.pass(20, past(2, { heading: 60 }));
    expect(boat.now().lead).toBeDefined();
    expect(kinds(boat)).toEqual([]);
    boat.pass(20, past(2, { heading: 50 }));
    expect(kinds(boat)).toEqual(['overrun']);
  });

  test('short is less than twice the height off, or less than three times it of cable out', () => {
    const far = new Boat();
    far.pass(20, past(17));
    expect(kinds(far)).not.toContain('overrun');
    const near = new Boat();
    near.pass(20, past(15));
    expect(kinds(near)).toContain('overrun');
    const shortCable = new Boat();
    shortCable.signal('out:23');
    shortCable.pass(20, past(17));
    expect(kinds(shortCable)).toContain('overrun');
    const longCable = new Boat();
    longCable.signal('out:25');
    longCable.pass(20, past(17));
    expect(kinds(longCable)).not.toContain('overrun');
    const unknown = new Boat();
    delete unknown.given.veered;
    unknown.pass(20, past(17));
    expect(kinds(unknown)).not.toContain('overrun');
  });

  test('by a doubtful position, or by the foredeck’s pointing alone, nothing is said', () => {
    const doubtful = new Boat();
    doubtful.signal('out:14');
    doubtful.pass(20, past(4, { doubt: 'it jumped' }));
    expect(kinds(doubtful)).toEqual([]);
    const pointed = new Boat();
    pointed.signal('out:14');
    pointed.signal('lead:6');
    pointed.pass(10, { distance: 4, heading: 0 });
    expect(kinds(pointed)).not.toContain('overrun');
  });

  test('stays while nothing can be seen, and says so; up and down it is over', () => {
    const boat = new Boat();
    boat.signal('out:14');
    boat.pass(10, past(4));
    boat.pass(20, {});
    expect(boat.found).toEqual([
      { kind: 'overrun', priority: 'warning', text: expect.stringMatching(/when last known/) },
    ]);
    boat.signal('up-and-down');
    boat.pass(6, past(4));
    expect(kinds(boat)).not.toContain('overrun');
  });

  test('free of the bottom there is nothing to overrun', () => {
    const boat = new Boat();
    boat.signal('out:14');
    boat.pass(10, past(4));
    boat.signal('aweigh');
    boat.pass(6, past(4));
    expect(kinds(boat)).toEqual([]);
  });
});

describe('cable-taut', () => {
  const hove = (distance: number): Boat => {
    const boat = new Boat();
    boat.sigma = 0.2;
    boat.given.mark.sigma = 0.2;
    boat.signal('heaving');
    boat.pass(30, () => {
      boat.counter(20);
      return { distance, heading: 0 };
    });
    return boat;
  };
  test('only when it is surely taut', () => {
    expect(kinds(hove(19.5))).toContain('cable-taut');
    const likely = hove(18);
    expect(likely.now().cable!.certainty).toBeLessThan(0.9);
    expect(kinds(likely)).not.toContain('cable-taut');
  });
});

describe('what is measured', () => {
  test('speed needs four seconds of places and is forgotten five seconds after the last', () => {
    const boat = new Boat();
    const coming = (second: number): Place => ({ distance: 40 - 0.4 * second, heading: 0 });
    boat.pass(3, coming);
    expect(boat.now().closing).toBeUndefined();
    boat.pass(9, (second) => coming(second + 3));
    expect(boat.now().closing!.value).toBeCloseTo(0.4, 3);
    // The spread of a slope through ten seconds of places is a few centimetres a second.
    expect(boat.now().closing!.sigma).toBeGreaterThan(0.03);
    expect(boat.now().closing!.sigma).toBeLessThan(0.1);
    boat.at += 5;
    expect(boat.now().closing).toBeDefined();
    boat.at += 1;
    expect(boat.now().closing).toBeUndefined();
    expect(boat.now().adrift).toBeUndefined();
  });

  test('one place a second is kept, for ten seconds, however fast fixes come', () => {
    const boat = new Boat();
    boat.pass(30, { distance: 20, heading: 0 });
    expect(boat.state.track.map(({ at }) => boat.at - at)).toEqual([10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0]);
    boat.at -= 0.9;
    boat.pass(1, { distance: 20, heading: 0 });
    expect(boat.state.track).toHaveLength(11);
  });

  test('without a roller there is no range', () => {
    const boat = new Boat();
    expect(rangeOf(boat.view(), boat.given)).toBeUndefined();
    boat.pass(5, {});
    expect(boat.state.track).toEqual([]);
  });

  test.each([
    [30, 'ahead'],
    [30.01, 'on-the-bow'],
    [75, 'on-the-bow'],
    [75.01, 'abeam'],
    [105, 'abeam'],
    [105.01, 'under-the-hull'],
  ])('a cable pointed out at %d° leads %s', (angle, name) => {
    const boat = new Boat();
    boat.pass(1, { distance: 30, heading: 0 });
    boat.state.pointed = { angle, at: boat.at };
    expect(boat.now().lead!.name).toBe(name);
    boat.state.pointed = { angle: -angle, at: boat.at };
    expect(boat.now().lead!.name).toBe(name);
  });

  test('what the foredeck points out counts for twenty seconds', () => {
    const boat = new Boat();
    boat.pass(1, { distance: 30 });
    boat.signal('lead:2');
    boat.pass(20, { distance: 30 });
    expect(boat.now().lead).toBeDefined();
    boat.pass(1, { distance: 30 });
    expect(boat.now().lead).toBeUndefined();
  });

  test('what sets her off her heading, from log, compass and positions, settles within a minute', () => {
    const boat = new Boat();
    // North at 0.8 m/s through the water, over the ground 0.8 north and 0.3 east: set 0.3 m/s to the east.
    boat.logSpeed = 0.8;
    boat.pass(60, (second) => {
      const [east, north] = [0.3 * second, 0.8 * second - 80];
      return {
        distance: Math.hypot(east, north),
        from: ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
        heading: 0,
      };
    });
    expect(boat.state.drift!.east).toBeCloseTo(0.3, 2);
    expect(boat.state.drift!.north).toBeCloseTo(0, 2);
    expect(boat.state.drift!.at).toBe(boat.at);
    // She stops in the water and over the ground: what set her is forgotten with a time constant of a quarter of a minute.
    boat.logSpeed = 0;
    const still = { distance: Math.hypot(18, 32), from: ((Math.atan2(18, -32) * 180) / Math.PI + 360) % 360 };
    boat.pass(20, { ...still, heading: 0 });
    expect(boat.state.drift!.east).toBeGreaterThan(0.05);
    expect(boat.state.drift!.east).toBeLessThan(0.22);
  });

  test('so it does on an easterly heading, and is nothing when she goes as the log says', () => {
    const drift = (overGround: number) => {
      const boat = new Boat();
      boat.logSpeed = 0.8;
      boat.pass(40, (second) => ({ distance: 100 - overGround * second, from: 270, heading: 90 }));
      return boat.state.drift!;
    };
    expect(drift(0.8).east).toBeCloseTo(0, 3);
    expect(drift(1.1).east).toBeCloseTo(0.3, 3);
    expect(drift(1.1).north).toBeCloseTo(0, 3);
  });

  test('her way when adrift is forgotten five seconds after the last place', () => {
    const boat = new Boat();
    boat.signal('aweigh');
    boat.pass(12, (second) => ({ distance: 10 + 0.5 * second, heading: 0 }));
    boat.at += 5;
    expect(boat.now().adrift).toBeDefined();
    boat.at += 1;
    expect(boat.now().adrift).toBeUndefined();
  });
});
