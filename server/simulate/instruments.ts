import { signed } from '../../shared/quantities/angle.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import { toKnots } from '../../shared/quantities/units.ts';
import type { Boat } from '../../shared/settings.ts';
import { bearing, dateParts, eastWest, position, sentence, timeOfDay } from './encode.ts';
import type { Fix } from './gnss.ts';
import type { Random } from './random.ts';
import type { Instruments, Scenario, SentenceId } from './scenario.ts';

const RADIAN = Math.PI / 180;

/** What the instruments feel at one moment; angles in degrees, speeds m/s, lengths m. */
export interface Felt {
  heading: number;
  /** Signed to starboard. */
  windAngle: number;
  windSpeed: number;
  /** Through the water, ahead positive. */
  waterSpeed: number;
  /** Surface to bottom at the sounder. */
  depth: number;
  veered: number;
}

type Maker = (talker: string, felt: Felt) => string;
type FixMaker = (talker: string, fix: Fix) => string;

/** Sentences of a fix, by identifier. `place` turns metres into latitude and longitude, `startAt` is UNIX seconds. */
export function fixSentences(
  scenario: Scenario,
  place: (east: number, north: number) => LatLon,
): Partial<Record<SentenceId, FixMaker>> {
  const { decimals } = scenario.gnss;
  const { variation } = scenario.instruments.compass;
  const startAt = scenario.start.at;
  const where = (fix: Fix) => (fix.valid ? position(place(fix.east, fix.north), decimals) : ['', '', '', '']);
  const status = (fix: Fix) => (fix.valid ? 'A' : 'V');
  const mode = (fix: Fix) => (fix.valid ? 'A' : 'N');
  const knots = (fix: Fix) => (fix.valid ? toKnots(fix.sog).toFixed(2) : undefined);
  const course = (fix: Fix) => (fix.valid && fix.cog !== undefined ? bearing(fix.cog) : undefined);
  const time = (fix: Fix) => timeOfDay(startAt + fix.at);
  return {
    RMC(talker, fix) {
      const [day, month, year] = dateParts(startAt + fix.at);
      const date = day + month + year.slice(2);
      const fields = [time(fix), status(fix), ...where(fix), knots(fix), course(fix), date];
      return sentence(talker, 'RMC', [...fields, ...eastWest(variation), mode(fix)]);
    },
    GGA: (talker, fix) =>
      sentence(talker, 'GGA', [
        time(fix),
        ...where(fix),
        fix.valid ? 1 : 0,
        (fix.valid ? fix.satellites : 0).toString().padStart(2, '0'),
        fix.valid ? fix.hdop.toFixed(1) : undefined,
        ...(fix.valid ? ['3.0', 'M', '20.0', 'M'] : ['', 'M', '', 'M']),
        '',
        '',
      ]),
    GLL: (talker, fix) => sentence(talker, 'GLL', [...where(fix), time(fix), status(fix), mode(fix)]),
    VTG: (talker, fix) =>
      sentence(talker, 'VTG', [course(fix), 'T', '', 'M', knots(fix), 'N', '', 'K', mode(fix)]),
    ZDA: (talker, fix) => sentence(talker, 'ZDA', [time(fix), ...dateParts(startAt + fix.at), '00', '00']),
  };
}

/** Sentences of the other instruments, by identifier, each with its own faults. */
export function instrumentSentences(
  { compass, vane, log, sounder, waterTemperature }: Instruments,
  boat: Boat,
  random: Random,
): Partial<Record<SentenceId, Maker>> {
  const magnetic = (heading: number) => {
    const deviation = compass.deviation * Math.sin(heading * RADIAN);
    return heading - compass.variation - deviation + compass.noise * random.normal();
  };
  const belowTransducer = boat.sounder.belowWaterline ?? 0;
  return {
    HDG: (talker, felt) =>
      sentence(talker, 'HDG', [bearing(magnetic(felt.heading)), '', '', ...eastWest(compass.variation)]),
    MWV(talker, felt) {
      const angle = felt.windAngle + vane.misaligned + vane.angleNoise * random.normal();
      const speed = felt.windSpeed * (1 + vane.speedNoise * random.normal());
      return sentence(talker, 'MWV', [bearing(angle), 'R', toKnots(Math.max(0, speed)).toFixed(1), 'N', 'A']);
    },
    VHW(talker, felt) {
      const turns = Math.abs(felt.waterSpeed) >= log.starts && felt.waterSpeed > 0;
      const speed = turns ? felt.waterSpeed * log.factor : 0;
      return sentence(talker, 'VHW', ['', 'T', '', 'M', toKnots(speed).toFixed(2), 'N', '', 'K']);
    },
    DPT(talker, felt) {
      const depth = felt.depth - belowTransducer + sounder.noise * random.normal();
      return sentence(talker, 'DPT', [Math.max(0, depth).toFixed(2), belowTransducer.toFixed(1), '']);
    },
    MTW: (talker) => sentence(talker, 'MTW', [waterTemperature.toFixed(1), 'C']),
    XDR: (talker, felt) => sentence(talker, 'XDR', ['D', felt.veered.toFixed(1), 'M', 'CHAIN']),
  };
}

/** Wind that a vane on the moving boat feels: angle signed to starboard, degrees, and speed. */
export function apparentWind(
  wind: { east: number; north: number },
  boat: { velocityEast: number; velocityNorth: number },
  heading: number,
): { angle: number; speed: number } {
  const east = wind.east - boat.velocityEast;
  const north = wind.north - boat.velocityNorth;
  const from = Math.atan2(-east, -north) / RADIAN;
  return { angle: signed(from - heading), speed: Math.hypot(east, north) };
}
