import { describe, expect, test } from 'vitest';
import { hangUnder } from '../../../shared/cable/catenary.ts';
import { nylonSnubber, surge } from '../../../shared/cable/surge.ts';
import { carried, yacht } from './help.ts';

const hang = yacht(2.3, 9.5, 50);
const boat = { hang, load: 1000, mass: 9000 };

describe('surge on chain', () => {
  test('9 t with 5 % added mass, case A, from 1000 N [C]: 0.25 m/s → 2216.24 N, 0.5 m/s → 8600.46 N, from 0.75 m/s no end', () => {
    expect(surge({ ...boat, speed: 0.25 })).toMatchObject({
      state: 'held',
      peak: expect.closeTo(2216.24, 2),
    });
    expect(surge({ ...boat, speed: 0.5 })).toMatchObject({ state: 'held', peak: expect.closeTo(8600.46, 1) });
    expect(surge({ ...boat, speed: 0.75 })).toEqual({ state: 'unbounded' });
    expect(surge({ ...boat, speed: 1 })).toEqual({ state: 'unbounded' });
  });

  test('the energy is what lifts the chain: potential energy of the catenary, summed link by link', () => {
    const end = surge({ ...boat, speed: 0.4 });
    if (end?.state !== 'held') throw new Error('held expected');
    const lifted = (H: number): number => {
      const shape = carried(hangUnder(hang, H));
      const start = H * Math.tan((shape.angleAtAnchor * Math.PI) / 180);
      const links = 20_000;
      const step = shape.suspended / links;
      let height = 0;
      let sum = 0;
      for (let k = 0; k < links; k++) {
        const up = start + hang.weight * (k + 0.5) * step;
        const rise = (up / Math.hypot(up, H)) * step;
        sum += hang.weight * step * (height + rise / 2);
        height += rise;
      }
      return sum;
    };
    const travel = carried(hangUnder(hang, end.peak)).reach - carried(hangUnder(hang, 1000)).reach;
    const gained = lifted(end.peak) - lifted(1000) - 1000 * travel;
    expect(gained / (0.5 * 9000 * 1.05 * 0.4 ** 2)).toBeCloseTo(1, 4);
    expect(end.travel).toBeCloseTo(travel, 6);
  });

  test('a snubber gives every surge an end, and a softer one a lower peak', () => {
    const soft = surge({ ...boat, speed: 1, snubber: 2000 });
    const stiff = surge({ ...boat, speed: 1, snubber: 20_000 });
    if (soft?.state !== 'held' || stiff?.state !== 'held') throw new Error('held expected');
    expect(soft.peak).toBeLessThan(stiff.peak);
    expect(surge({ ...boat, speed: 0 })).toMatchObject({ state: 'held', peak: expect.closeTo(1000, 6) });
  });

  test('a snubber is softer when longer, stiffer when thicker, and its figure is rough', () => {
    const { value, sigma } = nylonSnubber(12, 8);
    expect(nylonSnubber(12, 16).value).toBeCloseTo(value / 2, 9);
    expect(nylonSnubber(24, 8).value).toBeCloseTo(4 * value, 6);
    expect(sigma / value).toBeCloseTo(1 / 3, 9);
  });

  test('measures that make no sense have no answer', () => {
    expect(surge({ ...boat, speed: Number.NaN })).toBeUndefined();
    expect(surge({ ...boat, speed: 0.3, load: 0 })).toBeUndefined();
    expect(surge({ ...boat, speed: 0.3, hang: { ...hang, length: 5 } })).toBeUndefined();
    expect(surge({ ...boat, speed: 0.3, snubber: -1 })).toBeUndefined();
  });
});
