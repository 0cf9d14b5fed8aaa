/**
 * What a sentence says, in SI units and degrees. A member that is absent was blank in the sentence: unknown, never zero.
 * Directions are true unless the name says magnetic or compass; speeds m/s; lengths m; angles signed to starboard.
 */
export type Observation =
  | TimeObservation
  | PositionObservation
  | NoPositionObservation
  | { kind: 'accuracy'; latSigma?: number; lonSigma?: number }
  | { kind: 'dilution'; hdop?: number; dimensions?: 1 | 2 | 3 }
  | { kind: 'satellites-in-view'; count: number }
  | { kind: 'motion'; sog?: number; cog?: number; cogMagnetic?: number }
  | { kind: 'heading'; heading: number }
  /** Compass heading; `magnetic` is true when deviation has been applied (or is stated), false when it is not known. */
  | { kind: 'heading-magnetic'; heading: number; deviationApplied: boolean }
  | { kind: 'variation'; variation: number }
  /** Degrees per second, starboard positive. */
  | { kind: 'rate-of-turn'; rate: number }
  | { kind: 'wind-apparent'; angle: number; speed: number }
  /** "True" wind as the instrument computed it, angle off the bow; mostly referred to the water. */
  | { kind: 'wind-theoretical'; angle: number; speed: number }
  /** Wind over the ground; direction it blows from. */
  | { kind: 'wind-ground'; from?: number; fromMagnetic?: number; speed?: number }
  | { kind: 'water-speed'; ahead: number; athwart?: number }
  | { kind: 'ground-speed'; ahead: number; athwart?: number }
  /** Set (towards) and drift of the stream. */
  | { kind: 'stream'; set?: number; setMagnetic?: number; drift: number }
  /** `reference` says what the instrument measured from; `offset` is the DPT offset as sent (see the vessel room). */
  | { kind: 'depth'; depth: number; reference: 'transducer' | 'surface' | 'keel'; offset?: number }
  | { kind: 'water-temperature'; celsius: number }
  | { kind: 'distance-log'; total?: number; sinceReset?: number }
  | { kind: 'transducer'; type: string; value?: number; unit: string; name: string }
  | AisFragment
  | { kind: 'alert-sentence'; sentence: AlertSentence };

/** `timeOfDay` in seconds since 00:00 UTC; `date` is the UNIX time of that day's 00:00 UTC, only when the sentence carries a date. */
export interface TimeObservation {
  kind: 'time';
  timeOfDay: number;
  date?: number;
}

export type FixQuality = 'autonomous' | 'differential' | 'precise' | 'rtk' | 'rtk-float' | 'estimated';

/** A position that the receiver says is valid. Never 0/0 from blanks: see NoPositionObservation. */
export interface PositionObservation {
  kind: 'position';
  lat: number;
  lon: number;
  quality: FixQuality;
  timeOfDay?: number;
  satellites?: number;
  hdop?: number;
  /** Size of the last digit sent, in metres north-south (3-decimal minutes: 1.85 m). */
  resolution: number;
}

/** The receiver speaks, and says (or shows) that it has no position to give. */
export interface NoPositionObservation {
  kind: 'no-position';
  reason: 'no-fix' | 'blank' | 'zero' | 'simulated' | 'manual';
  timeOfDay?: number;
}

export interface AisFragment {
  kind: 'ais-fragment';
  own: boolean;
  total: number;
  number: number;
  sequence?: number;
  channel: string;
  payload: string;
  fillBits: number;
}

/** IEC 61162-1 alert sentences, fields named as in the standard's own list; undefined where blank. */
export type AlertSentence =
  | { id: 'ALR'; timeOfDay?: number; alertId: string; condition: string; acknowledged: string; text: string }
  | { id: 'ACK'; alertId: string }
  | {
      id: 'ALF';
      total: number;
      number: number;
      sequence?: number;
      timeOfDay?: number;
      category?: string;
      priority?: string;
      state?: string;
      manufacturer?: string;
      alertId: string;
      instance?: string;
      revision?: number;
      escalation?: number;
      text: string;
    }
  | {
      id: 'ALC';
      total: number;
      number: number;
      sequence?: number;
      entries: { manufacturer?: string; alertId: string; instance?: string; revision?: string }[];
    }
  | {
      id: 'ACN';
      timeOfDay?: number;
      manufacturer?: string;
      alertId: string;
      instance?: string;
      command: string;
    }
  | { id: 'HBT'; interval?: number; ok: boolean; sequence?: number };
