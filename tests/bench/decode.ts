import { existsSync, readFileSync } from 'node:fs';
import { parseNmeaSentence } from 'nmea-simple';
import { checksum } from '../../shared/sentences/checksum.ts';
import { decode } from '../../shared/sentences/decode.ts';
import { splitLine } from '../../shared/sentences/split.ts';

export interface Rate {
  name: string;
  /** Sentences a second, median of the rounds. */
  perSecond: number;
}

/** Published sentences (go-nmea's tests, MIT; gpsd NMEA.adoc, BSD-2-Clause), for when the recording is absent. */
const PUBLISHED = [
  '$SDDPT,5.3,0.4,*79',
  '$SDHDG,229.8,,,1.3,E*36',
  '$SDVHW,231.3,T,229.9,M,6.6,N,12.3,K*71',
  '$WIMWV,57.5,R,13.0,N,A*26',
  '$WIMWD,328.2,T,326.8,M,11.2,N,5.8,M*61',
  '$IIXDR,C,,C,AIRTEMP,A,-1.0,D,HEEL,A,2.9,D,TRIM,P,,B,BARO,A,-3.9,D,RUDDER*29',
  '$GPGGA,094736,5251.0094,N,00518.8172,E,1,12,0.60,-4,M,46.8,M,,*4B',
  '$GPRMC,094737,A,5251.0093,N,00518.8170,E,5.6,230.5,200818,1.4,E,A*1F',
  '$GPVTG,230.5,T,229.1,M,5.6,N,10.4,K,A*19',
];
/** Seen from the repository's root, where benchmarks are run; they are bundled, so that a place beside the module says nothing. */
const LOG = '../shared/recorded/boat-ijsselmeer-2018/ijsselmeer.nmea';
const SENTENCES = 5000;
const WARM_UP = 20;
const ROUNDS = 31;

function mix(): string[] {
  if (existsSync(LOG))
    return readFileSync(LOG, 'latin1')
      .split(/\r?\n/)
      .filter((line) => line.startsWith('$'));
  console.warn(
    `${LOG} is absent: measured on ${PUBLISHED.length} published sentences instead of a boat's real mix.`,
  );
  // Cut from one text, as received lines are: node remembers how it split a literal.
  const text = Array.from({ length: SENTENCES }, (_, i) => PUBLISHED[i % PUBLISHED.length]).join('\n');
  return text.split('\n');
}

function parsesInNmeaSimple(line: string): boolean {
  try {
    parseNmeaSentence(line);
    return true;
  } catch {
    return false;
  }
}

/**
 * Sentences a second of hawse, of nmea-simple and of the least that any decoder must do (the checksum, and the fields as strings),
 * on the sentences that nmea-simple supports and on the whole mix of a boat's bus; interleaved in one run, so that they share
 * whatever else the machine does. Results are summed so that nothing can be optimised away.
 */
export function decodeBench(): Rate[] {
  const full = mix();
  const supported = full.filter(parsesInNmeaSimple);
  let kept = 0;
  const limit = (line: string) => {
    kept += checksum(line, 1, line.length - 3) + line.split(',').length;
  };
  const nmeaSimple = (line: string) => {
    try {
      kept += parseNmeaSentence(line).sentenceId.length;
    } catch {
      kept++;
    }
  };
  const options = { requireChecksum: true };
  const hawse = (line: string) => {
    for (const piece of splitLine(line)) {
      const decoded = decode(piece, options);
      kept += decoded.ok ? decoded.observations.length : 1;
    }
  };
  const runs = [
    { name: 'checksum and split, supported mix', take: limit, lines: supported },
    { name: 'checksum and split, full mix', take: limit, lines: full },
    { name: 'nmea-simple, supported mix', take: nmeaSimple, lines: supported },
    { name: 'nmea-simple, full mix', take: nmeaSimple, lines: full },
    { name: 'hawse, supported mix', take: hawse, lines: supported },
    { name: 'hawse, full mix', take: hawse, lines: full },
  ];
  const rates = runs.map(() => [] as number[]);
  for (let round = -WARM_UP; round < ROUNDS; round++) {
    for (const [i, { take, lines }] of runs.entries()) {
      const start = performance.now();
      for (const line of lines) take(line);
      const seconds = (performance.now() - start) / 1000;
      if (round >= 0) rates[i]!.push(lines.length / seconds);
    }
  }
  if (kept === 0) throw new Error('nothing was decoded');
  return runs.map(({ name }, i) => ({ name, perSecond: median(rates[i]!) }));
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
