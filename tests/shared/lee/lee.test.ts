import { describe, expect, test } from 'vitest';
import { destination, distanceBearing } from '../../../shared/earth/geodesic.ts';
import { type Around, leeNote } from '../../../shared/lee/lee.ts';
import { fromKnots, toKnots } from '../../../shared/quantities/units.ts';

const ROLLER = { lat: 20.25, lon: -45.5 };
const around = (more: Partial<Around> = {}): Around => ({
  roller: ROLLER,
  length: 12,
  wind: { from: 270, speed: fromKnots(30) },
  neighbours: [],
  sectors: [],
  ...more,
});

describe('the lee', () => {
  test('published drift [F]: bare masts at 30 kn, 5.23 % of the wind: 0.8072 m/s, 1.569 kn (OpenDrift OBJECTPROP.DAT)', () => {
    const view = leeNote(around())!;
    expect(view.drift.value).toBeCloseTo(0.8072, 4);
    expect(toKnots(view.drift.value)).toBeCloseTo(1.569, 3);
    expect(view.toward).toBeCloseTo(90, 9);
    expect(view.first).toBeUndefined();
    expect(view.report).toBe(
      'If the anchor goes she drifts to 090° at about 1.6 kn (± 0.4), by the wind alone: the stream is not known: nothing that hawse knows of within 1000 m. hawse has no chart: look what lies to leeward.',
    );
  });

  test('the stream carries her as well', () => {
    const view = leeNote(around({ stream: { set: 0, drift: 0.8072 } }))!;
    expect(view.toward).toBeCloseTo(45, 1);
    expect(view.drift.value).toBeCloseTo(0.8072 * Math.SQRT2, 3);
  });

  test('the neighbour to leeward, not the one to windward nor the one well abeam', () => {
    const boat = (name: string, bearing: number, range: number) => ({
      name,
      place: destination(ROLLER, bearing, range),
      length: 12,
    });
    const view = leeNote(
      around({ neighbours: [boat('Upwind', 270, 60), boat('Abeam', 0, 80), boat('Leeward', 95, 150)] }),
    )!;
    expect(view.first).toMatchObject({ what: 'neighbour', name: 'Leeward' });
    expect(view.first!.distance).toBeGreaterThan(80);
    expect(view.first!.distance).toBeLessThan(150);
    expect(view.first!.in).toBeCloseTo(view.first!.distance / 0.8072, 0);
  });

  test('a sector, or water too thin, when that comes first', () => {
    const bank = {
      name: 'the bank',
      contains: (point: { lat: number; lon: number }) => distanceBearing(ROLLER, point).distance > 40,
    };
    const thin = (metres: number) => (point: { lat: number; lon: number }) =>
      distanceBearing(ROLLER, point).distance > metres ? 0.1 : undefined;
    expect(leeNote(around({ sectors: [bank], underKeelAt: thin(60) }))!.first).toMatchObject({
      what: 'sector',
      name: 'the bank',
    });
    const shoal = leeNote(around({ sectors: [bank], underKeelAt: thin(21) }))!;
    expect(shoal.first).toMatchObject({ what: 'shoal' });
    expect(shoal.first!.distance).toBeGreaterThan(20.5);
    expect(shoal.report).toContain('too little water after about 22 m, 27 s');
  });

  test('in a calm without stream there is no lee', () => {
    expect(leeNote(around({ wind: { from: 0, speed: 0.5 } }))).toBeUndefined();
  });
});
