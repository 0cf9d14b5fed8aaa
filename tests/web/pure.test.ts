import { describe, expect, test } from 'vitest';
import { plane, unit } from '../../web/projection.ts';
import { leadInWords, tied } from '../../web/words.ts';

describe('the drawing plane', () => {
  // [F] Lengths of a degree on WGS-84 as published in "Length of a degree of latitude and longitude", Wikipedia articles
  // "Latitude" and "Longitude": metres.
  test.each([
    { lat: 0, north: 110_574, east: 111_320 },
    { lat: 15, north: 110_649, east: 107_551 },
    { lat: 45, north: 111_132, east: 78_847 },
    { lat: 60, north: 111_412, east: 55_800 },
  ])('a degree has its published length at $lat°', ({ lat, north, east }) => {
    const project = plane({ lat, lon: 20 });
    const { x, y } = project({ lat: lat + 0.001, lon: 20.001 });
    expect(x * 1000).toBeGreaterThan(east - 1);
    expect(x * 1000).toBeLessThan(east + 1);
    expect(-y * 1000).toBeGreaterThan(north - 1);
    expect(-y * 1000).toBeLessThan(north + 1);
  });

  test('the 180th meridian is no wall', () => {
    const project = plane({ lat: -16.5, lon: 179.9999 });
    const east = project({ lat: -16.5, lon: -179.9999 });
    const west = project({ lat: -16.5, lon: 179.9997 });
    expect(east.x).toBeCloseTo(-west.x, 6);
    expect(east.x).toBeGreaterThan(20);
    expect(east.x).toBeLessThan(22);
  });

  test('north is up and east is right on the screen', () => {
    expect(unit(0)).toEqual({ x: 0, y: -1 });
    expect(unit(90).x).toBeCloseTo(1);
    expect(unit(90).y).toBeCloseTo(0);
  });
});

describe('words', () => {
  test.each([
    [0, 'right ahead'],
    [-2, 'right ahead'],
    [30.4, '30° on the starboard bow'],
    [-84, '84° on the port bow'],
    [90, 'on the starboard beam'],
    [-94, 'on the port beam'],
    [120, '30° abaft the starboard beam'],
    [-176, '86° abaft the port beam'],
    [180, 'right astern'],
  ])('a lead of %s° grows %s', (lead, said) => {
    expect(leadInWords(lead)).toBe(said);
  });

  test('a figure keeps its unit on the line', () => {
    expect(tied('31 m to the anchor, wind 14 kn, 12 s ago, 3 more')).toBe(
      '31\u00a0m to the anchor, wind 14\u00a0kn, 12\u00a0s ago, 3 more',
    );
  });
});
