import { stationsById } from '@neaps/tide-database';
import { describe, expect, test } from 'vitest';
import {
  type RawStation,
  stationsNear,
  tideOfStation,
  toldFrom,
} from '../../../server/tide-stations/stations.ts';
import { harmonicTide } from '../../../shared/water/tide/harmonic.ts';

describe('the open data set', () => {
  test('names the nearest stations with distance, licence and attribution', async () => {
    const near = await stationsNear(48.38, -4.5);
    if (!near.ok) throw new Error(near.why);
    expect(near.found[0]!.name).toMatch(/Brest/);
    expect(near.found[0]!.distance).toBeLessThan(2000);
    for (const station of near.found) {
      expect(station.attribution).toMatch(/./);
      expect(station.licence).toMatch(/./);
    }
    const distances = near.found.map(({ distance }) => distance);
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  test('none within 300 km of the middle of an ocean', async () => {
    expect(await stationsNear(-48, -125)).toEqual({ ok: true, found: [] });
  });

  /**
   * Mean high and low waters of a year of our predictions against the datums that the station's authority publishes (MHW, MLW; MHHW,
   * MLLW where the tide is diurnal), as the data set holds them [F]. Three regimes. M2 swings by 3.7 % about its mean in 18.6 years.
   */
  test.each([
    ['semidiurnal', 48.38, -4.5, 'MHW', 'MLW'],
    ['mixed', 37.8, -122.46, 'MHHW', 'MLLW'],
    ['diurnal', 29.26, -89.96, 'MHHW', 'MLLW'],
  ])('a year of a %s tide has the published mean high and low water', async (regime, lat, lon, high, low) => {
    const near = await stationsNear(lat, lon);
    if (!near.ok) throw new Error(near.why);
    const { id, name } = near.found[0]!;
    const told = await tideOfStation(id);
    if (!told.ok) throw new Error(told.why);
    const { constituents, meanLevel } = told.found.harmonic!;
    const tide = harmonicTide(constituents, meanLevel);
    if (tide.state === 'refused') throw new Error(tide.reason);
    const { datums, chart_datum } = stationsById.get(id)!;
    const highs: number[] = [];
    const lows: number[] = [];
    const day = 86_400;
    for (let month = 0; month < 12; month++) {
      const from = Date.UTC(2026, 0, 1) / 1000 + month * 30 * day;
      const turns = tide.turns(from, from + 30 * day);
      const daily = high === 'MHHW';
      for (let d = 0; d < 30; d++) {
        const here = turns.filter(({ at }) => at >= from + d * day && at < from + (d + 1) * day);
        const up = here.filter((turn) => turn.high).map(({ height }) => height);
        const down = here.filter((turn) => !turn.high).map(({ height }) => height);
        if (daily && up.length > 0) highs.push(Math.max(...up));
        if (daily && down.length > 0) lows.push(Math.min(...down));
        if (!daily) {
          highs.push(...up);
          lows.push(...down);
        }
      }
    }
    const mean = (all: number[]) => all.reduce((sum, one) => sum + one, 0) / all.length;
    const datum = datums[chart_datum!]!;
    const published = { high: datums[high]! - datum, low: datums[low]! - datum };
    console.log(
      `${name} (${regime}): high ${mean(highs).toFixed(2)} m, published ${published.high.toFixed(2)}; low ${mean(lows).toFixed(2)} m, published ${published.low.toFixed(2)}`,
    );
    const range = published.high - published.low;
    expect(Math.abs(mean(highs) - published.high)).toBeLessThan(Math.max(0.05, 0.05 * range));
    expect(Math.abs(mean(lows) - published.low)).toBeLessThan(Math.max(0.05, 0.05 * range));
  });

  test('an unknown station is told as such', async () => {
    expect(await tideOfStation('nowhere/1')).toEqual({
      ok: false,
      why: 'There is no tide station nowhere/1.',
    });
  });
});

describe('a station that cannot be used', () => {
  const raw: RawStation = {
    id: 'x/1',
    name: 'Invented',
    latitude: 0,
    longitude: 0,
    attribution: 'nobody',
    license: { type: 'none', url: '' },
    chart_datum: 'LAT',
    datums: { MSL: 3, LAT: 0.5 },
    harmonic_constituents: [
      { name: 'M2', amplitude: 1, phase: 0 },
      { name: 'ZZ9', amplitude: 0.01, phase: 0 },
    ],
  };

  test('its mean level is above chart datum; a small constituent that is not known is left out', () => {
    const told = toldFrom(raw);
    expect(told).toMatchObject({
      ok: true,
      found: { harmonic: { meanLevel: 2.5, constituents: [{ name: 'M2' }] } },
    });
  });

  test('without datums, or hanging on an unknown constituent, it is refused', () => {
    expect(toldFrom({ ...raw, datums: {} })).toMatchObject({
      ok: false,
      why: expect.stringContaining('mean level'),
    });
    const strange = { ...raw, harmonic_constituents: [{ name: 'ZZ9', amplitude: 1, phase: 0 }] };
    expect(toldFrom(strange)).toMatchObject({ ok: false, why: expect.stringContaining('ZZ9') });
  });
});
