import type { Night } from '../../shared/logbook/night.ts';
import type { Lived } from '../../shared/logbook/rerun.ts';
import type { WhatIf } from '../../shared/logbook/what-if.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import type { Settings } from '../../shared/settings.ts';
import type { State } from '../../shared/state.ts';

/** What page and worker tell each other; `number` of an answer is that of what was asked. */

/** What is known of a file that was dropped on the page. */
export interface FileTold {
  settings: Settings;
  /** Absent: found from the track, for which the cable in the settings is needed. */
  mark?: LatLon;
}

export type Ask =
  /** Every input of a night of the logbook. */
  | { do: 'night'; id: string; url: string }
  | { do: 'file'; file: File; told: FileTold }
  /** The state as it was, of the night that is loaded. */
  | { do: 'moment'; at: number }
  | { do: 'what-if'; what: WhatIf }
  | { do: 'report'; night: Night; version: string };

/** Anything that takes long can be stopped. */
export type Sent = { number: number; ask: Ask } | { cancel: number };

export interface Loaded extends Lived {
  exact: boolean;
  /** What was doubtful about a file. */
  notes: string[];
}

export interface Answers {
  night: Loaded;
  file: Loaded;
  moment: Past;
  'what-if': Lived;
  report: string;
}

/** A state as it was, without what only the daemon of then knew. */
export type Past = Omit<State, 'pages' | 'simulated'>;

/** How far something is: bytes that came, or the share of the inputs that is lived, and how many times faster than the night. */
export interface Progress {
  bytes?: number;
  share?: number;
  times?: number;
}

export type Told =
  | { number: number; progress: Progress }
  | { number: number; answer: Answers[keyof Answers] }
  | { number: number; trouble: string };
