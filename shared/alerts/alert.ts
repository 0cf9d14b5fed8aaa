/** Alert words and states after the IMO bridge alert management standard (MSC.302(87)) and IEC 62923-1. */

export const ALERT_KINDS = [
  'drag',
  'outside-circle',
  'outside-sector',
  'shoal',
  'deep',
  'low-water',
  'wind-speed',
  'wind-shift',
  'position-lost',
  'position-doubtful',
  'heading-lost',
  'wind-lost',
  'depth-lost',
  'vessel-near',
  'lead-foul',
  'cable-taut',
  'overrun',
  'adrift',
  'disk',
  'clock',
  'daemon',
] as const;

export type AlertKind = (typeof ALERT_KINDS)[number];
export type Priority = 'alarm' | 'warning' | 'caution';

/** States as published; a caution only knows active-acknowledged and normal, since it needs no acknowledgement. */
export type AlertState =
  | 'active-unacknowledged'
  | 'active-silenced'
  | 'active-acknowledged'
  | 'rectified-unacknowledged'
  | 'normal';

/** One situation, one alert. */
export interface Alert {
  /** Unique in a run of the engine, e.g. "outside-circle.3". */
  id: string;
  kind: AlertKind;
  /** Tells alerts of one kind apart, as the finding does. */
  subject?: string;
  priority: Priority;
  state: AlertState;
  /** What, in words: what was measured against what limit. */
  text: string;
  /** Measured value and limit, SI units, when the alert has them. */
  value?: number;
  limit?: number;
  /** When the situation began, and when the present state began; UNIX seconds. */
  since: number;
  stateSince: number;
  /** Who acknowledged it, and when. */
  acknowledgedBy?: string;
  acknowledgedAt?: number;
  /** True when a warning has become an alarm because nobody acknowledged it. */
  escalated?: boolean;
}

/** What a duty finds at this moment; the alerts room turns findings into alerts. At most one finding per kind and subject. */
export interface Finding {
  kind: AlertKind;
  /** Tells situations of one kind apart, e.g. a neighbour's number; absent when there can be one only. */
  subject?: string;
  priority: Priority;
  text: string;
  value?: number;
  limit?: number;
}
