import { describe, expect, test } from 'vitest';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { Afloat, settings, type Told } from './help.ts';

const wind = (speedKnots: number, from = 200): Told => ({
  fix: 20,
  heading: 0,
  wind: { speed: fromKnots(speedKnots), from },
});

describe('wind-speed', () => {
  const lying = (): Afloat => {
    const boat = Afloat.watching(settings({ limits: { windAbove: fromKnots(25) } }));
    expect(boat.pass(10, wind(20))).toEqual([]);
    return boat;
  };
  const blowing = (): Afloat => {
    const boat = lying();
    boat.pass(16, wind(26));
    expect(boat.kinds()).toEqual(['wind-speed']);
    return boat;
  };

  test('is raised after fifteen seconds over the limit', () => {
    const boat = lying();
    expect(boat.pass(20, wind(26))).toEqual(['15.2 +wind-speed']);
    expect(boat.found[0]).toMatchObject({
      priority: 'warning',
      text: 'Wind 26.0 kn, over the limit of 25.0 kn.',
    });
    expect(boat.found[0]!.value).toBeCloseTo(13.376, 3);
    expect(boat.found[0]!.limit).toBeCloseTo(12.861, 3);
  });

  test('is not raised by gusts of fourteen seconds, nor by the limit itself', () => {
    const boat = lying();
    expect(boat.pass(600, (second) => wind(second % 20 < 15 ? 30 : 24))).toEqual([]);
    expect(boat.pass(600, wind(25))).toEqual([]);
  });

  test('ends after a minute below nine tenths of the limit', () => {
    const boat = blowing();
    boat.pass(1, wind(22));
    expect(boat.text('wind-speed')).toBe('Wind 22.0 kn, was over the limit of 25.0 kn.');
    expect(boat.pass(70, wind(22))).toEqual(['59.2 -wind-speed']);
  });

  test('does not end at 23 kn, nor while gusts come within the minute', () => {
    expect(blowing().pass(600, wind(23))).toEqual([]);
    expect(blowing().pass(600, (second) => wind(second % 60 === 59 ? 26 : 15))).toEqual([]);
  });

  test('takes the apparent wind while no other is known, and says so', () => {
    const boat = Afloat.watching(settings({ limits: { windAbove: fromKnots(25) } }));
    boat.pass(20, { fix: 20, heading: 0, apparent: fromKnots(30) });
    expect(boat.text('wind-speed')).toBe('Wind 30.0 kn apparent, over the limit of 25.0 kn.');
  });

  test('shows a second decimal when value and limit would read the same', () => {
    const boat = lying();
    boat.pass(20, wind(25.04));
    expect(boat.text('wind-speed')).toBe('Wind 25.04 kn, over the limit of 25.00 kn.');
  });

  test('goes by the wind over ground when both are known', () => {
    const boat = lying();
    expect(boat.pass(60, { ...wind(24), apparent: fromKnots(40) })).toEqual([]);
  });

  test('stays when the wind is lost, without a figure', () => {
    const boat = blowing();
    expect(boat.pass(60, { fix: 20, heading: 0 })).toEqual(['20.0 +wind-lost']);
    expect(boat.text('wind-speed')).toBe(
      'Wind over the limit of 25.0 kn when last measured; there is no wind now.',
    );
  });

  test('without a limit no wind is too strong', () => {
    expect(Afloat.watching(settings()).pass(60, wind(70))).toEqual([]);
  });
});

describe('wind-shift', () => {
  const REFERENCE = 600;
  const lying = (from = 350): Afloat => {
    const boat = Afloat.watching(settings({ limits: { windShift: 60 } }));
    // Sheering about its mean across north: a plain mean of the figures would be 180° wrong.
    expect(boat.pass(REFERENCE, (second) => wind(10, (from + (second % 2 ? 15 : -15) + 360) % 360))).toEqual(
      [],
    );
    return boat;
  };

  test('is raised when the two-minute mean has been off by more than the limit for a minute', () => {
    const boat = lying(350);
    // The mean follows within its two minutes, then the minute counts.
    const [raised, ...rest] = boat.pass(240, wind(10, 60));
    expect(rest).toEqual([]);
    const [time, kind] = raised!.split(' ');
    expect(kind).toBe('+wind-shift');
    expect(Number(time)).toBeGreaterThan(120);
    expect(Number(time)).toBeLessThanOrEqual(181);
    expect(boat.found[0]).toMatchObject({ priority: 'warning', limit: 60 });
    expect(boat.found[0]!.value).toBeCloseTo(70, 0);
    expect(boat.text('wind-shift')).toBe('Wind has shifted: 70°, from 350° to 060°; the limit is 60°.');
  });

  test('is raised to either side', () => {
    expect(lying(10).pass(240, wind(10, 300))).toHaveLength(1);
  });

  test('is not raised by a shift just under the limit, for an hour', () => {
    expect(lying(350).pass(3600, wind(10, 49))).toEqual([]);
  });

  test('is not raised by a shift of a minute that goes back', () => {
    const boat = lying(350);
    boat.pass(60, wind(10, 90));
    expect(boat.pass(600, wind(10, 350))).toEqual([]);
  });

  test('is not raised by light airs from anywhere', () => {
    expect(lying(350).pass(1200, wind(3.5, 170))).toEqual([]);
  });

  test('is not raised before ten minutes of wind have made the reference', () => {
    const boat = Afloat.watching(settings({ limits: { windShift: 60 } }));
    expect(boat.pass(550, (second) => wind(10, second < 200 ? 0 : 100))).toEqual([]);
  });

  test('takes no reference from wind that has no direction', () => {
    const boat = Afloat.watching(settings({ limits: { windShift: 60 } }));
    boat.pass(600, (second) => wind(10, (second * 37) % 360));
    expect(boat.state.wind?.reference).toBeUndefined();
    boat.pass(600, wind(10, 100));
    expect(boat.state.wind?.reference).toBeCloseTo(100, 0);
  });

  test('remembers two minutes, however long the night', () => {
    const boat = lying(350);
    boat.pass(7200, wind(10, 350));
    expect(boat.state.wind?.recent.length).toBeLessThanOrEqual(12);
  });

  test('ends after the mean has been back by ten degrees for a minute, not at fifty-five', () => {
    const boat = lying(350);
    boat.pass(240, wind(10, 70));
    expect(boat.pass(600, wind(10, 45))).toEqual([]);
    expect(boat.text('wind-shift')).toBe(
      'Wind had shifted more: 55° now, from 350° to 045°; the limit is 60°.',
    );
    expect(boat.pass(300, wind(10, 30)).map((change) => change.split(' ')[1])).toEqual(['-wind-shift']);
  });

  test('is measured from the limit when that is set later, and from the mark when that is moved', () => {
    const boat = lying(350);
    boat.order({ do: 'watch', change: { limits: { windShift: 40 } } });
    expect(boat.pass(900, wind(10, 90))).toEqual([]);
    boat.order({ do: 'mark', how: { here: true } });
    expect(boat.pass(900, wind(10, 180))).toEqual([]);
    expect(boat.pass(300, wind(10, 230))).toHaveLength(1);
  });

  test('stays when the direction is lost', () => {
    const boat = lying(350);
    boat.pass(240, wind(10, 70));
    boat.pass(10, { fix: 20, heading: 0 });
    expect(boat.text('wind-shift')).toBe(
      'Wind had shifted more than the limit of 60° when last measured; its direction is unknown now.',
    );
  });
});
