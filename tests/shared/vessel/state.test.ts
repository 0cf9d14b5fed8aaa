import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Sentence } from '../../../shared/sentences/decoded.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';
import { createVessel, hear, pass, view } from '../../../shared/vessel/vessel.ts';
import { badNumbers } from '../sentences/read.ts';
import { fix, Rig, START, say, settings } from './help.ts';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const angle = within(0, 359.9);

/** Drops the members that are undefined: what a sentence leaves blank is absent. */
const said = <T extends object>(
  shape: { [K in keyof T]: fc.Arbitrary<unknown> },
): fc.Arbitrary<Observation> =>
  fc
    .record(shape as Record<string, fc.Arbitrary<unknown>>)
    .map((all) => Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)))
    .map((whole) => whole as unknown as Observation);
const is = <K extends Observation['kind']>(kind: K) => fc.constant(kind);

const observation: fc.Arbitrary<Observation> = fc.oneof(
  said({ kind: is('motion'), sog: maybe(within(0, 20)), cog: maybe(angle), cogMagnetic: maybe(angle) }),
  said({ kind: is('heading'), heading: angle }),
  said({ kind: is('heading-magnetic'), heading: angle, deviationApplied: fc.boolean() }),
  said({ kind: is('variation'), variation: within(-40, 40) }),
  said({ kind: is('wind-apparent'), angle: within(-179, 180), speed: within(0, 40) }),
  said({
    kind: is('wind-ground'),
    from: maybe(angle),
    fromMagnetic: maybe(angle),
    speed: maybe(within(0, 40)),
  }),
  said({
    kind: is('depth'),
    depth: within(0, 99),
    reference: fc.constantFrom('transducer', 'surface', 'keel'),
    offset: maybe(within(-3, 3)),
  }),
  said({ kind: is('water-speed'), ahead: within(-3, 10), athwart: maybe(within(-2, 2)) }),
  said({ kind: is('ground-speed'), ahead: within(-3, 10), athwart: maybe(within(-2, 2)) }),
  said({ kind: is('stream'), set: maybe(angle), setMagnetic: maybe(angle), drift: within(0, 4) }),
  said({ kind: is('water-temperature'), celsius: within(-2, 35) }),
  said({ kind: is('dilution'), hdop: maybe(within(0.5, 20)), dimensions: maybe(fc.constantFrom(1, 2, 3)) }),
  said({ kind: is('accuracy'), latSigma: maybe(within(0, 50)), lonSigma: maybe(within(0, 50)) }),
  said({
    kind: is('no-position'),
    reason: fc.constantFrom('no-fix', 'blank', 'zero', 'simulated', 'manual'),
  }),
);

/** What a bus may bring in one moment: fixes that advance, repeat or go back, and anything else. */
const moment = fc.record({
  input: fc.constantFrom('udp1', 'serial1'),
  after: fc.oneof(within(0, 2), within(0, 40)),
  sentence: fc.oneof(
    fc
      .record({
        address: fc.constantFrom('GPGGA', 'GPRMC', 'IIRMC', 'IIGLL'),
        late: fc.constantFrom(0, 0, 0, 0, 3, 60),
        north: within(-60, 60),
        sog: maybe(within(0, 5)),
        cog: maybe(angle),
        hdop: maybe(within(0.5, 20)),
        quality: fc.constantFrom('autonomous', 'differential', 'estimated'),
      })
      .map(
        ({ address, late, north, sog, cog, hdop, quality }) =>
          (at: number): Sentence =>
            fix(address, Math.floor(at) - late, {
              north,
              quality: quality as 'autonomous',
              ...(sog === undefined ? {} : { sog }),
              ...(cog === undefined ? {} : { cog }),
              ...(hdop === undefined ? {} : { hdop }),
            }),
      ),
    fc
      .tuple(
        fc.constantFrom('HDG', 'HDT', 'VHW', 'MWV', 'MWD', 'DPT', 'DBT', 'RMC', 'VTG', 'VBW', 'GSA'),
        fc.array(observation, { maxLength: 3 }),
      )
      .map(
        ([id, observations]) =>
          () =>
            say(`II${id}`, ...observations),
      ),
  ),
});

test('a state saved as JSON and read again goes on exactly as the original', () => {
  fc.assert(
    fc.property(fc.array(moment, { minLength: 5, maxLength: 120 }), fc.nat(), (moments, cutAt) => {
      const one = createVessel();
      let two = createVessel();
      let at = START;
      const cut = cutAt % moments.length;
      for (const [i, { after, input, sentence }] of moments.entries()) {
        if (i === cut) two = JSON.parse(JSON.stringify(two));
        for (let second = Math.floor(at) + 1; second <= at + after; second++)
          expect(pass(two, settings, second)).toEqual(pass(one, settings, second));
        at += after;
        const heard = sentence(at);
        expect(hear(two, settings, heard, at, input)).toEqual(hear(one, settings, heard, at, input));
        expect(JSON.stringify(view(two, settings, at))).toBe(JSON.stringify(view(one, settings, at)));
      }
      expect(JSON.parse(JSON.stringify(one))).toEqual(JSON.parse(JSON.stringify(two)));
      expect(badNumbers(one)).toEqual([]);
    }),
    { numRuns: 150 },
  );
});

test('a view holds only numbers, only fresh values, and an age for each', () => {
  fc.assert(
    fc.property(fc.array(moment, { maxLength: 60 }), within(0, 40), (moments, later) => {
      const rig = new Rig();
      for (const { after, input, sentence } of moments) {
        const at = rig.now + after;
        rig.hear(at, sentence(at), input);
      }
      const seen = rig.view(rig.now + later);
      expect(badNumbers(seen)).toEqual([]);
      expect(JSON.stringify(seen)).not.toContain('null');
      const known = {
        position: seen.antenna,
        motion: seen.sog ?? seen.cog,
        heading: seen.heading,
        depth: seen.depth,
      };
      for (const [quantity, value] of Object.entries(known)) {
        if (!value) continue;
        expect(value.age).toBeGreaterThanOrEqual(0);
        expect(value.age).toBeLessThanOrEqual(10);
        expect(seen.ages[quantity as 'position']).toBe(value.age);
        expect(seen.sources[quantity as 'position']).toBe(value.source);
      }
      for (const direction of [seen.heading?.value, seen.cog?.value, seen.windGround?.value.from]) {
        if (direction === undefined) continue;
        expect(direction).toBeGreaterThanOrEqual(0);
        expect(direction).toBeLessThan(360);
      }
    }),
    { numRuns: 200 },
  );
});

test('view changes nothing', () => {
  const rig = new Rig();
  for (let i = 0; i < 20; i++) rig.hear(START + i, fix('GPRMC', START + i, { sog: 1, cog: 90 }));
  const before = JSON.stringify(rig.state);
  for (const later of [0, 3, 100]) view(rig.state, settings, rig.now + later);
  expect(JSON.stringify(rig.state)).toBe(before);
});

test('what hawse does not use is let go by', () => {
  const rig = new Rig();
  rig.hear(START, say('IIXDR', { kind: 'transducer', type: 'A', value: 3, unit: 'D', name: 'HEEL' }));
  rig.hear(START, say('IIROT', { kind: 'rate-of-turn', rate: 1 }));
  rig.hear(START, say('IIVLW', { kind: 'distance-log', total: 5 }));
  expect(rig.state).toEqual(createVessel());
});
