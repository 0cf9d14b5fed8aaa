import type { Sentence } from '../../../shared/sentences/decoded.ts';
import type { Observation, PositionObservation } from '../../../shared/sentences/observation.ts';
import type { Boat, Settings } from '../../../shared/settings.ts';
import { createVessel, hear, pass, type VesselState, view } from '../../../shared/vessel/vessel.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';

/** An invented boat; what these tests prove is behaviour. */
export const boat: Boat = {
  name: 'Sandpiper',
  hull: 'monohull',
  length: 12,
  beam: 4,
  draft: 1.9,
  roller: { height: 1.4 },
  antenna: { aftOfRoller: 9, toStarboard: 0.8 },
  sounder: { aftOfRoller: 4 },
  windage: {},
};

export const settings: Settings = {
  boat,
  cable: { massPerMetre: 2.3 },
  limits: {},
  circle: { margin: 6 },
  deviation: [],
  checksumOptional: [],
};

/** 2026-07-04 12:00:00 UTC: inside the years of WMM2025. */
export const START = Date.UTC(2026, 6, 4, 12) / 1000;
export const DAY = 86_400;
export const timeOfDay = (utc: number): number => ((utc % DAY) + DAY) % DAY;
export const midnight = (utc: number): number => DAY * Math.floor(utc / DAY);

/** Metres to degrees at 45° N 2° W, where the invented boat lies: 111 132 m and 78 847 m a degree (geodesy table, [C]). */
export const HOME = { lat: 45, lon: -2 };
export const off = (north: number, east = 0) => ({
  lat: HOME.lat + north / 111_131.777,
  lon: HOME.lon + east / 78_846.835,
});

/** A sentence from its address, e.g. `GPRMC`, and what it says. */
export const say = (address: string, ...observations: Observation[]): Sentence => ({
  ok: true,
  talker: address.slice(0, 2),
  id: address.slice(2),
  observations,
});

export interface FixOptions extends Partial<PositionObservation> {
  north?: number;
  east?: number;
  sog?: number;
  cog?: number;
}

/** A position sentence with time, as receivers send them: RMC has a date and motion, GGA satellites and HDOP. */
export function fix(address: string, utc: number, options: FixOptions = {}): Sentence {
  const { north = 0, east = 0, sog, cog, ...more } = options;
  const isRmc = address.endsWith('RMC');
  const explained = address.endsWith('GGA') ? { satellites: 10, hdop: 0.9 } : {};
  const motion: Observation = { kind: 'motion' };
  if (sog !== undefined) motion.sog = sog;
  if (cog !== undefined) motion.cog = cog;
  return say(
    address,
    { kind: 'time', timeOfDay: timeOfDay(utc), ...(isRmc ? { date: midnight(utc) } : {}) },
    {
      kind: 'position',
      ...off(north, east),
      quality: 'autonomous',
      resolution: 0.0185,
      timeOfDay: timeOfDay(utc),
      ...explained,
      ...more,
    },
    ...(sog === undefined && cog === undefined ? [] : [motion]),
  );
}

/** A vessel room that is fed sentence by sentence; seconds pass by themselves, as in the engine. */
export class Rig {
  state: VesselState = createVessel();
  settings: Settings;
  notes: string[] = [];
  fixes = 0;
  now: number;

  constructor(start = START, chosen = settings) {
    this.now = start;
    this.settings = chosen;
  }

  /** Lets time pass up to `at`. */
  until(at: number): this {
    for (let second = Math.floor(this.now) + 1; second <= at; second++)
      this.notes.push(...pass(this.state, this.settings, second));
    this.now = at;
    return this;
  }

  hear(at: number, sentence: Sentence, input = 'udp1'): boolean {
    this.until(at);
    const heard = hear(this.state, this.settings, sentence, at, input);
    this.notes.push(...heard.notes);
    if (heard.fix) this.fixes++;
    return heard.fix;
  }

  view(at = this.now): VesselView {
    this.until(at);
    return view(this.state, this.settings, at);
  }
}
