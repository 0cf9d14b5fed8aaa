import { readFileSync } from 'node:fs';
import { type Packet, parseNmeaSentence } from 'nmea-simple';
import { describe, expect, test } from 'vitest';
import { KILOMETRE_PER_HOUR, KNOT } from '../../../shared/quantities/units.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';
import { recorded } from '../../recorded.ts';
import { only } from './read.ts';

/**
 * nmea-simple is wrong about blanks, hemispheres, dates and old forms (nmea-0183.md §1), and right about sentences that are filled
 * completely: those it may check, in tests, and nowhere else.
 */
function compare(packet: Packet, observations: Observation[]): boolean {
  const position = only(observations, 'position');
  switch (packet.sentenceId) {
    case 'GGA':
      expect(position?.lat).toBeCloseTo(packet.latitude, 9);
      expect(position?.lon).toBeCloseTo(packet.longitude, 9);
      expect(position?.satellites).toBe(packet.satellitesInView);
      expect(position?.hdop).toBe(packet.horizontalDilution);
      return true;
    case 'GLL':
      expect(position?.lat).toBeCloseTo(packet.latitude, 9);
      expect(position?.lon).toBeCloseTo(packet.longitude, 9);
      return true;
    case 'RMC': {
      expect(position?.lat).toBeCloseTo(packet.latitude, 9);
      expect(position?.lon).toBeCloseTo(packet.longitude, 9);
      expect(only(observations, 'motion')?.sog).toBeCloseTo(packet.speedKnots * KNOT, 9);
      expect(only(observations, 'motion')?.cog).toBeCloseTo(packet.trackTrue, 9);
      const time = only(observations, 'time');
      expect(time!.date! + time!.timeOfDay).toBeCloseTo(packet.datetime.getTime() / 1000, 3);
      const sign = packet.variationPole === 'E' ? 1 : -1;
      expect(only(observations, 'variation')?.variation).toBeCloseTo(sign * packet.variation, 9);
      return true;
    }
    case 'VTG':
      expect(only(observations, 'motion')).toEqual({
        kind: 'motion',
        sog: packet.speedKnots * KNOT,
        cog: packet.trackTrue,
        cogMagnetic: packet.trackMagnetic,
      });
      return true;
    case 'ZDA': {
      const time = only(observations, 'time');
      expect(time!.date! + time!.timeOfDay).toBeCloseTo(packet.datetime.getTime() / 1000, 3);
      return true;
    }
    case 'MWV': {
      const wind = only(observations, packet.reference === 'relative' ? 'wind-apparent' : 'wind-theoretical');
      const unit = { K: KILOMETRE_PER_HOUR, M: 1, N: KNOT }[packet.units];
      expect(wind?.speed).toBeCloseTo(packet.speed * unit, 9);
      expect(((wind?.angle ?? Number.NaN) + 360) % 360).toBeCloseTo(packet.windAngle, 9);
      return true;
    }
    case 'VHW':
      expect(only(observations, 'heading')?.heading).toBeCloseTo(packet.degreesTrue, 9);
      expect(only(observations, 'heading-magnetic')?.heading).toBeCloseTo(packet.degreesMagnetic, 9);
      expect(only(observations, 'water-speed')?.ahead).toBeCloseTo(packet.speedKnots * KNOT, 9);
      return true;
    case 'DBT':
      expect(only(observations, 'depth')?.depth).toBe(packet.depthMeters);
      return true;
    case 'HDT':
      expect(only(observations, 'heading')?.heading).toBe(packet.heading);
      return true;
    case 'HDG':
      if (packet.variationDirection === '') return false;
      expect(only(observations, 'variation')?.variation).toBe(
        packet.variationDirection === 'E' ? packet.variation : -packet.variation,
      );
      return true;
    default:
      return false;
  }
}

/** No field is blank but those that nmea-simple leaves alone: age and station of GGA, deviation of HDG. */
const isFilled = (sentence: string) =>
  !/,[,*]/.test(
    sentence.replace(/^(\$..GGA(?:,[^,]*){12}),,\*/, '$1*').replace(/^(\$..HDG,[^,]+),,,/, '$1,'),
  );

const LOGS = [
  ['boat-ijsselmeer-2018/ijsselmeer.nmea', ['DBT', 'GGA', 'GLL', 'HDG', 'MWV', 'RMC', 'VHW', 'VTG', 'ZDA']],
  ['quirks/humminbird-M37.log', ['GLL', 'RMC', 'VTG', 'ZDA']],
  ['quirks/nmea-fuzzy-cases.log', ['GGA', 'RMC']],
  ['quirks/saab-r4.log', ['GLL', 'HDT', 'ZDA']],
] as const;

describe('nmea-simple says the same of filled sentences', () => {
  for (const [log, expected] of LOGS) {
    const path = recorded(log);
    test.skipIf(path === undefined)(log, () => {
      const compared = new Set<string>();
      for (const sentence of readFileSync(path!, 'latin1').split(/\r?\n/)) {
        if (!sentence.startsWith('$') || !isFilled(sentence)) continue;
        const decoded = decode(sentence, { requireChecksum: true });
        if (!decoded.ok) continue;
        let packet: Packet;
        try {
          packet = parseNmeaSentence(sentence);
        } catch {
          continue;
        }
        if (compare(packet, decoded.observations)) compared.add(decoded.id);
      }
      expect([...compared].sort()).toEqual(expected);
    });
  }
});
