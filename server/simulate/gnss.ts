import type { Random } from './random.ts';
import type { Gnss, GnssFault } from './scenario.ts';
import { createWander, type Wander } from './wander.ts';

const DAY = 86_400;
const HALF_CIRCLE = 180 / Math.PI;
/** A receiver that holds its position lets go of it when the true one has run off this far, m [P]. */
const HOLD_LEASH = 8;
/** Below this speed (m/s) it tells no course. */
const COURSE_FROM = 0.1;
/** Satellites left and dilution under a bad sky: both look harmless, as they did in the recording of a bad place (reference §4). */
const BAD_SKY = { satellites: 5, hdop: 1.7 };

/** What the receiver makes of one moment. `at`: seconds after the start, as it tells the time. */
export interface Fix {
  at: number;
  valid: boolean;
  /** Metres east and north of the start. */
  east: number;
  north: number;
  sog: number;
  cog?: number;
  satellites: number;
  hdop: number;
}

export interface Receiver {
  /** A fix of the antenna at `t`; undefined while the receiver is silent. Call it every `gnss.every` seconds. */
  fix(t: number, antenna: Motion): Fix | undefined;
}

export interface Motion {
  east: number;
  north: number;
  velocityEast: number;
  velocityNorth: number;
}

/**
 * A receiver after the error model of nmea-0183.md §4: per axis a slow Gauss–Markov error that a change of satellites throws to
 * another place, and a fast one; on request static hold, silence, no fix, the same fix again and again, a bad sky, a jump.
 */
export function createReceiver(gnss: Gnss, random: Random): Receiver {
  const slow = axes(gnss.slow.sigma, gnss.slow.tau);
  const skies = new Map<GnssFault, [Wander, Wander]>();
  const changeChance = (gnss.changes.perDay * gnss.every) / DAY;
  let satellites = gnss.satellites;
  let last: Fix | undefined;
  let kept: { east: number; north: number } | undefined;

  function axes(sigma: number, tau: number): [Wander, Wander] {
    const one = () => createWander(sigma, tau, gnss.every, random);
    return [one(), one()];
  }
  function change(): void {
    if (random.uniform() >= changeChance) return;
    for (const axis of slow) axis.value += gnss.changes.sigma * random.normal();
    satellites = Math.max(5, gnss.satellites + Math.round(2 * random.normal()));
  }
  function noise(t: number): { east: number; north: number; speed: number; bad: boolean } {
    let east = slow[0].step() + gnss.white * random.normal();
    let north = slow[1].step() + gnss.white * random.normal();
    change();
    let speed = gnss.speedNoise;
    let bad = false;
    for (const fault of gnss.faults ?? []) {
      if (t < fault.from || t >= fault.to) continue;
      if (fault.kind === 'jump') {
        east += fault.east;
        north += fault.north;
      } else if (fault.kind === 'bad-sky') {
        let sky = skies.get(fault);
        if (!sky) {
          sky = axes(fault.sigma, fault.tau);
          for (const axis of sky) axis.value = 0;
          skies.set(fault, sky);
        }
        east += sky[0].step();
        north += sky[1].step();
        speed = fault.speedNoise;
        bad = true;
      }
    }
    return { east, north, speed, bad };
  }
  const during = (t: number, kind: GnssFault['kind']) =>
    gnss.faults?.some((fault) => fault.kind === kind && t >= fault.from && t < fault.to) ?? false;

  function hold(fix: Fix): void {
    if (gnss.staticHold === undefined) return;
    const near = kept && Math.hypot(fix.east - kept.east, fix.north - kept.north) < HOLD_LEASH;
    if (kept && near && fix.sog < gnss.staticHold) {
      fix.east = kept.east;
      fix.north = kept.north;
      fix.sog = 0;
      delete fix.cog;
    } else kept = { east: fix.east, north: fix.north };
  }

  return {
    fix(t, antenna) {
      const error = noise(t);
      const velocityEast = antenna.velocityEast + error.speed * random.normal();
      const velocityNorth = antenna.velocityNorth + error.speed * random.normal();
      if (during(t, 'silent')) return undefined;
      if (during(t, 'frozen') && last) return last;
      const sog = Math.hypot(velocityEast, velocityNorth);
      const fix: Fix = {
        at: t,
        valid: !during(t, 'void'),
        east: antenna.east + error.east,
        north: antenna.north + error.north,
        sog,
        ...(sog < COURSE_FROM ? {} : { cog: compass(velocityEast, velocityNorth) }),
        satellites: error.bad ? BAD_SKY.satellites : satellites,
        hdop: error.bad ? BAD_SKY.hdop : gnss.hdop,
      };
      hold(fix);
      last = fix;
      return fix;
    },
  };
}

const compass = (east: number, north: number): number => (Math.atan2(east, north) * HALF_CIRCLE + 360) % 360;
