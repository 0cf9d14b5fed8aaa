import { expect, test } from 'vitest';
import { bearing, dateParts, position, sentence, timeOfDay } from '../../../server/simulate/encode.ts';

test('sentences get the checksums that were published (sentences of nmea-0183.md §2)', () => {
  expect(sentence('WI', 'MWV', ['57.5', 'R', '13.0', 'N', 'A'])).toBe('$WIMWV,57.5,R,13.0,N,A*26');
  expect(sentence('SD', 'DPT', ['5.3', '0.4', ''])).toBe('$SDDPT,5.3,0.4,*79');
  expect(sentence('HC', 'HDG', ['98.3', '0.1', 'E', '12.6', 'W'])).toBe('$HCHDG,98.3,0.1,E,12.6,W*56');
  expect(sentence('GP', 'ZDA', ['160012.71', '11', '03', '2004', '-1', '00'])).toBe(
    '$GPZDA,160012.71,11,03,2004,-1,00*7D',
  );
  const where = position({ lat: 44 + 4.14012 / 60, lon: -(121 + 18.85993 / 60) }, 5);
  expect(sentence('GN', 'GLL', [...where, '001037.00', 'A', 'A'])).toBe(
    '$GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A*67',
  );
});

test('a position never has sixty minutes', () => {
  expect(position({ lat: -35.9999999, lon: 179.9999999 }, 4)).toEqual(['3600.0000', 'S', '18000.0000', 'E']);
  expect(position({ lat: 0.5 / 60, lon: -9.05 }, 3)).toEqual(['0000.500', 'N', '00903.000', 'W']);
  expect(position({ lat: 1.1, lon: 0 }, 0)).toEqual(['0106', 'N', '00000', 'E']);
});

test('times, dates and bearings roll over where they must', () => {
  const midnight = Date.UTC(2026, 11, 31, 23, 59, 59) / 1000;
  expect(timeOfDay(midnight + 0.999)).toBe('235959.99');
  expect(timeOfDay(midnight + 1)).toBe('000000.00');
  expect(dateParts(midnight + 1)).toEqual(['01', '01', '2027']);
  expect(bearing(359.97)).toBe('0.0');
  expect(bearing(-0.3)).toBe('359.7');
});
