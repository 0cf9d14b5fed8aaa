import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  checksum,
  checksumBefore,
  checksumDigits,
  withChecksum,
} from '../../../shared/sentences/checksum.ts';
import { decimal } from '../../../shared/sentences/decimal.ts';

describe('checksum', () => {
  test('published (gpsd NMEA.adoc; go-nmea)', () => {
    expect(withChecksum('GPHDT,274.07,T')).toBe('$GPHDT,274.07,T*03');
    expect(withChecksum('$GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A')).toBe(
      '$GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A*67',
    );
    expect(withChecksum('!AIVDM,2,2,3,B,1@0000000000000,2')).toBe('!AIVDM,2,2,3,B,1@0000000000000,2*55');
  });

  test('of a part of a text, and of nothing', () => {
    expect(checksum('$GPHDT,274.07,T*03', 1, 15)).toBe(0x03);
    expect(checksum('abc', 1, 1)).toBe(0);
    expect(checksumDigits(0)).toBe('00');
    expect(checksumDigits(0xab)).toBe('AB');
  });

  test('what stands before an end as *hh', () => {
    expect(checksumBefore('x*4c', 4)).toBe(0x4c);
    expect(checksumBefore('x*4C', 4)).toBe(0x4c);
    for (const text of ['', '*', '*4', '4C', '*4G', '*G4', '*:4', '*`4', '*@4', '**4', '* 4'])
      expect([text, checksumBefore(text, text.length)]).toEqual([text, -1]);
  });
});

describe('decimal numbers', () => {
  const read = (text: string) => decimal(text, 0, text.length);

  test('are what Number reads, to the last bit', () => {
    const digits = fc.stringMatching(/^[+-]?[0-9]{1,12}(\.[0-9]{0,12})?$/);
    fc.assert(
      fc.property(digits, (text) => {
        expect(read(text)).toBe(Number(text) + 0);
      }),
      { numRuns: 20_000, seed: 5 },
    );
  });

  test('every string that is not one is refused', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 8 }), (text) => {
        const isDecimal = /^[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)$/.test(text);
        expect(read(text) !== undefined).toBe(isDecimal);
      }),
      { numRuns: 20_000, seed: 6 },
    );
  });

  test('of 250 digits is finite', () => {
    expect(Number.isFinite(read('9'.repeat(250)))).toBe(true);
    expect(read(`-0.${'0'.repeat(40)}`)).toBe(0);
  });
});
