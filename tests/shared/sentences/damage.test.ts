import { describe, expect, test } from 'vitest';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode, UNDERSTOOD } from '../../../shared/sentences/decode.ts';
import { refuse, say } from './read.ts';

/** The longest form of each sentence, every field filled, and the fields in which anything may stand: free text, or never read. */
const FILLED: [body: string, free: number[]][] = [
  ['GPGGA,132820.60,4134.498,N,09345.033,W,2,09,1.0,278.020,M,-31.442,M,7.6,0133', [13]],
  ['GPGNS,224749.00,3333.426,N,11153.353,W,D,19,0.6,406.110,-26.294,6.0,0138,S', [11, 12]],
  ['GPRMC,223251.00,A,3757.926,N,12231.945,W,0.068,338.51,210416,0.00,E,A,V', [8, 12]],
  ['GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A', []],
  ['GPVTG,230.5,T,229.1,M,5.6,N,10.4,K,A', []],
  ['GNGSA,A,3,80,71,73,79,69,1,2,3,4,5,6,7,1.83,1.09,1.47,1', [17]],
  ['GPGSV,3,3,11,22,42,067,42,24,14,311,43,27,05,244,00,28,01,010,30,1', [19]],
  ['GPGST,182141.000,15.5,15.3,7.2,21.8,0.9,0.5,0.8', []],
  ['GPZDA,160012.71,11,03,2004,-1,00', [1, 2, 3]],
  ['GPHDT,274.07,T', []],
  ['HCHDG,98.3,0.1,E,12.6,W', []],
  ['HCHDM,093.8,M', []],
  ['INTHS,304.5,A', []],
  ['HEROT,-11.23,A', []],
  ['SDVHW,231.3,T,229.9,M,6.6,N,12.3,K', []],
  ['VMVBW,-7.1,0.1,A,1,1,A,1,A,1,A', [6, 7, 8, 9]],
  ['IIVDR,10.1,T,12.3,M,1.2,N', []],
  ['SDVLW,1.0,N,545.6,N,1109.4,N,393.6,N', [4, 5, 6, 7]],
  ['WIMWV,57.5,R,13.0,N,A', []],
  ['WIMWD,328.2,T,326.8,M,11.2,N,5.8,M', []],
  ['IIVWR,75,R,1.0,N,0.51,M,1.85,K', []],
  ['IIVWT,75,R,1.0,N,0.51,M,1.85,K', []],
  ['IIDPT,007.8,-1.0,20', [1]],
  ['SDDBT,7.8,f,2.4,M,1.3,F', []],
  ['SDDBK,12.3,f,3.7,M,2.0,F', []],
  ['SDDBS,01.9,f,0.58,M,00.3,F', []],
  ['IIMTW,+20.5,C', []],
  ['IIXDR,A,-1.0,D,HEEL', [0, 2, 3]],
  ['!AIVDM,2,1,3,B,55P5TL01VIaAL@7WKO@m,0', [3]],
  ['!AIVDO,1,1,3,A,E@2=Vg@;4a,2', [3]],
  ['RAALR,220516,001,A,A,Bilge pump alarm1', [1, 4]],
  ['VRACK,001', [0]],
  ['IIALF,2,1,1,081950.10,B,A,S,XYZ,0512,1,2,0,HEADING LOST', [7, 8, 9, 12]],
  ['FBALC,02,01,03,01,FEB,01,02,03', [4, 5, 6, 7]],
  ['RAACN,220516,TCK,002,1,A,C', [1, 2, 3]],
  ['HCHBT,1.5,A,1', []],
];

const fieldsOf = (body: string) => body.split(',').slice(1);
const withField = (body: string, i: number, value: string) =>
  body
    .split(',')
    .map((field, k) => (k === i + 1 ? value : field))
    .join(',');

/** How often 0 stands anywhere in a value. */
function zeros(value: unknown): number {
  if (value === 0) return 1;
  if (value === null || typeof value !== 'object') return 0;
  return Object.values(value).reduce<number>((sum, inner) => sum + zeros(inner), 0);
}

test('there is a filled sentence for every identifier', () => {
  expect(FILLED.map(([body]) => body.replace('!', '').slice(2, 5)).sort()).toEqual(UNDERSTOOD);
});

describe.each(FILLED)('%s', (body, free) => {
  test('says something', () => {
    expect(say(body).length).toBeGreaterThan(0);
  });

  test('a field of rubbish is noticed in every place where it matters', () => {
    const noticed = fieldsOf(body).map((_, i) => {
      const decoded = decode(withChecksum(withField(body, i, '1~')), { requireChecksum: true });
      return !decoded.ok && decoded.reason === 'malformed';
    });
    expect(noticed).toEqual(fieldsOf(body).map((_, i) => !free.includes(i)));
  });

  test('a field gone blank makes no zero that was not there', () => {
    for (const i of fieldsOf(body).keys()) {
      const decoded = decode(withChecksum(withField(body, i, '')), { requireChecksum: true });
      if (decoded.ok)
        expect([i, zeros(decoded.observations)]).toEqual([i, expect.toSatisfy((n) => n <= zeros(say(body)))]);
    }
  });

  test('one more field is refused, unless it is blank', () => {
    expect(refuse(`${body},1`).reason).toBe('malformed');
    expect(say(`${body},`)).toEqual(say(body));
  });
});
