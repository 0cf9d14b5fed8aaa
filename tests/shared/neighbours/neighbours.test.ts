import { describe, expect, test } from 'vitest';
import type { Spoken } from '../../../server/simulate/neighbours/speak.ts';
import { destination } from '../../../shared/earth/geodesic.ts';
import { type Own, takeAway, tellNeighbour } from '../../../shared/neighbours/neighbours.ts';
import { ANCHOR, own, room } from './help.ts';

/** Behaviour, in an invented anchorage; the geometry has its own tests. */

const there = (bearing: number, range: number) => destination(ANCHOR, bearing, range);
const quiet = (mmsi: number, bearing: number, range: number, more: Partial<Spoken> = {}): Spoken => ({
  mmsi,
  unit: 'A',
  status: 1,
  sog: 0,
  cog: 0,
  heading: 180,
  ...there(bearing, range),
  ...more,
});

describe('what is heard', () => {
  test('a vessel at anchor, with name and size, her circle, and distances', () => {
    const { says, tellsStatic, pass } = room();
    tellsStatic(211000001, 'A', 'Moss Lantern', 14, 4);
    says(quiet(211000001, 90, 120));
    const [view] = pass(2);
    expect(view).toMatchObject({
      id: 'ais-211000001',
      name: 'MOSS LANTERN',
      activity: 'at-anchor',
      activityFrom: 'told',
      extentFrom: 'told',
      extent: { toBow: 7, toStern: 7 },
      headingFrom: 'told',
      circle: { veeredFrom: 'assumed' },
    });
    // Her anchor lies south of her, as her bow looks; 8 m of water and 1.4 m to the roller, scope 5.
    expect(view!.circle!.anchor.lat).toBeLessThan(view!.place.lat);
    expect(view!.circle!.veered).toBeCloseTo(5 * 9.4, 6);
    expect(view!.outOfStep!).toBeLessThan(view!.together!);
    expect(view!.distance!).toBeGreaterThan(90);
  });

  test('class B tells no status: at anchor when she has lain still for five minutes', () => {
    const { says, pass } = room();
    const b = quiet(211000002, 90, 150, { unit: 'B' });
    delete b.status;
    says(b);
    expect(pass(1)[0]!.activity).toBe('unknown');
    pass(180);
    says(b);
    pass(121);
    says(b);
    expect(pass(1)[0]).toMatchObject({ activity: 'at-anchor', activityFrom: 'moves' });
  });

  test('our own ship, by VDO, is no neighbour; nor is one heard before we knew our number', () => {
    const { state, says, hear, pass } = room();
    // The published type 1 message of gpsd AIVDM.adoc, heard as another's and then as our own.
    hear('!AIVDM,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*13');
    expect(state.targets).toHaveLength(1);
    hear('!AIVDO,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*11');
    expect(state.targets).toHaveLength(0);
    hear('!AIVDM,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*13');
    says(quiet(211000003, 10, 100));
    expect(pass(1)).toHaveLength(1);
  });

  test('she fades when she is not heard, and goes', () => {
    const { says, pass } = room();
    says(quiet(211000004, 90, 100));
    expect(pass(390)[0]!.stale).toBeUndefined();
    expect(pass(20)[0]!.stale).toBe(true);
    expect(pass(800)).toEqual([]);
  });

  test('a message that cannot be read is counted with its reason and makes no vessel', () => {
    const { state, hear, pass } = room();
    hear('!AIVDM,1,1,,B,,0*25');
    expect(state.heard).toMatchObject({
      read: 0,
      malformed: 1,
      lastRefusal: expect.stringContaining('udp1: AIS message'),
    });
    expect(pass(1)).toEqual([]);
  });

  test('without depth no circle is made up', () => {
    const { says, pass } = room({ depth: undefined as never });
    says(quiet(211000005, 90, 100));
    expect(pass(1)[0]!.circle).toBeUndefined();
    expect(pass(1)[0]!.distance).toBeDefined();
  });
});

describe('vessel-near', () => {
  test('under way and passing close: a warning that ends when she is past', () => {
    const { state, says, pass } = room();
    const ferry = (at: number) =>
      says({
        mmsi: 211000010,
        unit: 'A',
        status: 0,
        sog: 3,
        cog: 90,
        heading: 90,
        ...destination(there(0, 60), 270, 400 - 3 * (at - 1000)),
      });
    let said = '';
    pass(120, (at) => at % 5 === 0 && ferry(at));
    said = state.found[0]?.text ?? '';
    expect(state.found).toMatchObject([
      { kind: 'vessel-near', subject: 'ais-211000010', priority: 'warning' },
    ]);
    expect(said).toMatch(/under way passes \d+ m from us|leads into us/);
    pass(120, (at) => at % 5 === 0 && ferry(at));
    expect(state.found).toEqual([]);
  });

  test('one that passes at 200 m is nobody’s business', () => {
    const { state, says, pass } = room();
    pass(200, (at) => {
      if (at % 5 === 0)
        says({
          mmsi: 211000011,
          unit: 'A',
          status: 0,
          sog: 3,
          cog: 90,
          heading: 90,
          ...destination(there(0, 235), 270, 400 - 3 * (at - 1000)),
        });
      expect(state.found).toEqual([]);
    });
  });

  test('a neighbour that drags towards us: an alarm with the time that is left', () => {
    const { state, says, pass } = room();
    // Upwind (the wind is from the south, we lie north of our anchor), she comes down on us at 0.3 m/s after ten minutes.
    const her = (at: number) =>
      quiet(211000012, 180, 120 - Math.max(0, at - 1600) * 0.3, { sog: at > 1600 ? 0.3 : 0 });
    pass(600, (at) => at % 60 === 0 && says(her(at)));
    expect(state.found).toEqual([]);
    let alarmAt: number | undefined;
    pass(420, (at) => {
      if (at % 60 === 0) says(her(at));
      if (state.found[0]?.priority === 'alarm') alarmAt ??= at;
    });
    expect(alarmAt).toBeDefined();
    expect(state.found[0]!.text).toMatch(
      /probably drags: \d+ m beyond her circle, 0\.6 kn to 0\d\d°; could be upon us in/,
    );
  });

  test('a neighbour that swings through half a circle does not drag', () => {
    const { state, says, pass } = room();
    const anchor = there(90, 150);
    pass(3600, (at) => {
      if (at % 180 !== 0) return;
      const lie = ((at - 1000) / 3600) * 180;
      says({ ...quiet(211000013, 0, 0), heading: (lie + 180) % 360, ...destination(anchor, lie, 42) });
      expect(state.found).toEqual([]);
    });
    expect(state.views[0]!.dragging).toBeUndefined();
  });

  test('lying over our anchor: a caution while we watch, a warning when we weigh', () => {
    for (const weighing of [false, true]) {
      const { state, says, tellsStatic, pass } = room(weighing ? { weighing } : {});
      tellsStatic(211000014, 'A', 'Grey Withy', 14, 4);
      says(quiet(211000014, 0, 1));
      pass(20);
      expect(state.found).toMatchObject([
        { priority: weighing ? 'warning' : 'caution', text: 'GREY WITHY lies over our anchor.' },
      ]);
    }
  });

  test('a boat alongside: a warning', () => {
    const { state, says, pass } = room();
    says(quiet(211000015, 0, 35, { ...destination(destination(ANCHOR, 0, 41), 90, 9) }));
    pass(20);
    expect(state.found).toMatchObject([
      { priority: 'warning', text: expect.stringContaining('lies 5 m from us') },
    ]);
  });
});

describe('told by hand', () => {
  test('by range and bearing; she swings as we do; and is taken away', () => {
    const { state, pass } = room();
    expect(
      tellNeighbour(
        state,
        own(1000),
        { range: 60, bearing: 90, name: 'Blue ketch', length: 14, veered: 40 },
        'helm',
      ),
    ).toEqual({ ok: true });
    const [view] = pass(1);
    expect(view).toMatchObject({
      id: 'hand-1',
      name: 'Blue ketch',
      from: 'hand',
      activity: 'at-anchor',
      circle: { veered: 40, veeredFrom: 'told' },
    });
    expect(view!.bearing).toBeCloseTo(90, 0);
    expect(view!.distance).toBeCloseTo(60 - 2 - 14 / 6, 0);
    expect(takeAway(state, 'hand-7')).toMatchObject({ ok: false, problem: 'unknown' });
    expect(takeAway(state, 'hand-1')).toEqual({ ok: true });
    expect(pass(1)).toEqual([]);
  });

  test('not without a position of our own, and not without end', () => {
    const { state } = room();
    const blind = own(1000);
    delete blind.roller;
    expect(tellNeighbour(state, blind, { range: 60, bearing: 90 }, 'helm')).toMatchObject({
      ok: false,
      problem: 'unavailable',
    });
    for (let i = 0; i < 20; i++) tellNeighbour(state, own(1000), { range: 60, bearing: i }, 'helm');
    expect(tellNeighbour(state, own(1000), { range: 60, bearing: 90 }, 'helm')).toMatchObject({
      ok: false,
      problem: 'refused',
    });
  });
});

describe('what she is doing', () => {
  const seen = (seconds: number, more: Partial<Spoken>, drop: (keyof Spoken)[] = []) => {
    const { says, pass } = room();
    const spoken = quiet(211000050, 90, 150, more);
    for (const key of drop) delete spoken[key];
    says(spoken);
    return pass(seconds)[0]!;
  };

  test.each([
    [1, 0, 'at-anchor', 'told'],
    [5, 0, 'moored', 'told'],
    [0, 3, 'under-way', 'told'],
    [8, 3, 'under-way', 'told'],
    [0, 0.2, 'unknown', 'moves'],
    // Engaged in fishing, aground: whatever it means for us, she has told something else.
    [7, 2, 'unknown', 'told'],
    [6, 0.2, 'unknown', 'told'],
  ])('status %d at %d m/s: %s, as %s', (status, sog, activity, activityFrom) => {
    expect(seen(2, { status, sog })).toMatchObject({ activity, activityFrom });
  });

  test('without a status, by her speed', () => {
    expect(seen(2, { unit: 'B', sog: 3 }, ['status'])).toMatchObject({
      activity: 'under-way',
      activityFrom: 'moves',
    });
  });

  test('at anchor without a heading she is taken to lie as we do; under way along her course', () => {
    expect(seen(2, {}, ['heading'])).toMatchObject({ heading: 180, headingFrom: 'assumed' });
    expect(seen(2, { status: 0, sog: 3, cog: 45 }, ['heading'])).toMatchObject({
      heading: 45,
      headingFrom: 'assumed',
    });
  });
});

describe('while we have no position of our own', () => {
  test('neighbours are shown where they are, without distances', () => {
    const { says, pass, state } = room({ roller: undefined } as unknown as Partial<Own>);
    says(quiet(211000060, 90, 150));
    expect(tellNeighbour(state, own(1000), { range: 50, bearing: 270, name: 'Grey Withy' }, 'Ann').ok).toBe(
      true,
    );
    const views = pass(2);
    expect(views.map(({ id }) => id).sort()).toEqual(['ais-211000060', 'hand-1']);
    for (const view of views) expect(view.distance).toBeUndefined();
  });
});

describe('as many as can be kept', () => {
  test('the one heard longest ago makes room for a new one', () => {
    const { says, pass, state } = room();
    for (let i = 0; i < 200; i++) {
      says(quiet(211100000 + i, i, 150));
      if (i < 2) pass(1);
    }
    // The first is heard again: the second is now the one of longest ago.
    says(quiet(211100000, 0, 150));
    says(quiet(211200000, 5, 150));
    const kept = state.targets.map(({ mmsi }) => mmsi);
    expect(kept).toHaveLength(200);
    expect(kept).toContain(211100000);
    expect(kept).not.toContain(211100001);
    expect(kept).toContain(211200000);
  });
});
