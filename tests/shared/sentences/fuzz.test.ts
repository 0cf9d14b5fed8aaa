import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, test } from 'vitest';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { badNumbers } from './read.ts';

const LINES = 1_000_000;

/** One filled sentence of every kind, published in gpsd's NMEA.adoc, go-nmea's, pynmea2's and pynmeagps' tests. */
const SEEDS = [
  '$GNGGA,001043.00,4404.14036,N,12118.85961,W,1,12,0.98,1113.0,M,-21.3,M,,*47',
  '$GPGNS,224749.00,3333.4268304,N,11153.3538273,W,D,19,0.6,406.110,-26.294,6.0,0138,S*6A',
  '$GPRMC,223251.00,A,3757.92653,N,12231.94543,W,0.068,338.51,210416,0.00,E,A,V*5B',
  '$GNGLL,4404.14012,N,12118.85993,W,001037.00,A,A*67',
  '$GPVTG,230.5,T,229.1,M,5.6,N,10.4,K,A*19',
  '$GNGSA,A,3,80,71,73,79,69,,,,,,,,1.83,1.09,1.47*17',
  '$GPGSV,3,3,11,22,42,067,42,24,14,311,43,27,05,244,00,,,,*4D',
  '$GPGST,182141.000,15.5,15.3,7.2,21.8,0.9,0.5,0.8*54',
  '$GPZDA,160012.71,11,03,2004,-1,00*7D',
  '$GPHDT,274.07,T*03',
  '$HCHDG,98.3,0.1,E,12.6,W*56',
  '$HCHDM,093.8,M*2B',
  '$INTHS,304.5,A*25',
  '$HEROT,-11.23,A*07',
  '$SDVHW,231.3,T,229.9,M,6.6,N,12.3,K*71',
  '$VMVBW,-7.1,0.1,A,,,V,,V,,V*65',
  '$IIVDR,10.1,T,12.3,M,1.2,N*3A',
  '$WIMWV,57.5,R,13.0,N,A*26',
  '$WIMWD,328.2,T,326.8,M,11.2,N,5.8,M*61',
  '$IIVWR,75,R,1.0,N,0.51,M,1.85,K*6C',
  '$IIVWT,75,R,1.0,N,0.51,M,1.85,K*6A',
  '$IIDPT,007.8,-1.0,*4F',
  '$SDDBT,7.8,f,2.4,M,1.3,F*0D',
  '$SDDBK,12.3,f,3.7,M,2.0,F*2F',
  '$23DBS,01.9,f,0.58,M,00.3,F*21',
  '$IIMTW,+20.5,C*3F',
  '$HCXDR,A,171,D,PITCH,A,-37,D,ROLL,G,367,,MAGX,G,2420,,MAGY,G,-8984,,MAGZ*41',
  '!AIVDM,2,1,3,B,55P5TL01VIaAL@7WKO@mBplU@<PDhh000000001S;AJ::4A80?4i@E53,0*3E',
  '!AIVDO,1,1,,A,E@2=Vg@;4a::PV@0b7W@:94PV@3P0qo>>evWP000006f11@,2*0F',
  '$RAALR,220516,001,A,A,Bilge pump alarm1*4c',
  '$VRACK,001*50',
  '$IIALF,2,1,1,081950.10,B,A,S,XYZ,0512,1,2,0,HEADING LOST*2D',
  '$FBALC,02,01,03,02,FEB,01,02,03,TEB,02,03,04*5f',
  '$RAACN,220516,TCK,002,1,A,C*00',
  '$HCHBT,1.5,A,1*23',
  '$SDVLW,,N,545.6,N,1109.4,N,393.6,N*44',
  '\\g:1-2-73874,n:157036,s:r003669945,c:1241544035*4A\\!AIVDM,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*13',
];
/** What damage likes to put in: what the decoder looks for, and numbers that are none. */
const SPLINTERS = [
  ...'$!*,\\^.-+:\0\n 09AVNEWSMTRKF',
  '1e9',
  'NaN',
  'Infinity',
  '-',
  '99999999999999999999',
  '\xff',
  '€',
  '__proto__',
];

test('a million mutated lines and random bytes: nothing throws, no number is bad, every piece is judged', () => {
  const random = xoroshiro128plus(20_261_125);
  const below = (n: number) => uniformInt(random, 0, n - 1);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)]!;

  const mutate = (line: string): string => {
    const at = below(line.length + 1);
    switch (below(6)) {
      case 0:
        return line.slice(0, at) + pick(SPLINTERS) + line.slice(at + 1);
      case 1:
        return line.slice(0, at) + pick(SPLINTERS) + line.slice(at);
      case 2:
        return line.slice(0, at) + line.slice(at + 1 + below(6));
      case 3:
        return line.slice(0, at);
      case 4:
        return line.slice(0, at) + pick(SEEDS).slice(below(20));
      default:
        return line.slice(0, at) + String.fromCharCode(below(256)) + line.slice(at + 1);
    }
  };
  const bytes = () => {
    let line = below(2) === 0 ? '' : '$GP';
    for (let n = below(40); n > 0; n--) line += String.fromCharCode(below(256));
    return line;
  };
  /** Half of the damaged lines get a right checksum again, as loggers and multiplexers give them. */
  const line = (i: number): string => {
    if (i % 10 === 0) return bytes();
    let damaged = mutate(pick(SEEDS));
    while (below(3) === 0) damaged = mutate(damaged);
    const star = damaged.lastIndexOf('*');
    return below(2) === 0 ? damaged : withChecksum(star < 0 ? damaged : damaged.slice(0, star));
  };

  const seen = { sentence: 0, checksum: 0, malformed: 0, unknown: 0 };
  const bad: string[] = [];
  for (let i = 0; i < LINES; i++) {
    const text = line(i);
    const pieces = splitLine(text);
    if (pieces.length === 0 && text.trim() !== '') bad.push(`no piece: ${JSON.stringify(text)}`);
    for (const piece of pieces) {
      const decoded = decode(piece, { requireChecksum: below(4) > 0 });
      seen[decoded.ok ? 'sentence' : decoded.reason]++;
      if (!decoded.ok) continue;
      for (const observation of decoded.observations) {
        const numbers = badNumbers(observation);
        if (numbers.length > 0) bad.push(`${numbers}: ${JSON.stringify(piece)}`);
        if (observation.kind === 'position' && observation.lat === 0 && observation.lon === 0)
          bad.push(`0/0: ${JSON.stringify(piece)}`);
      }
    }
  }
  expect(bad.slice(0, 10)).toEqual([]);
  // The damage must reach every part of the decoder, or the test would show little.
  for (const [what, count] of Object.entries(seen)) expect([what, count > LINES / 100]).toEqual([what, true]);
});
