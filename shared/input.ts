import type { AlertKind, Priority } from './alerts/alert.ts';
import type { Command } from './commands.ts';
import type { Settings } from './settings.ts';

/**
 * What the engine is fed. `at` is UNIX seconds on one timeline that never goes back (the caller sees to that);
 * `source` is the id of an input, e.g. "udp1".
 */
export type Input =
  | { kind: 'line'; at: number; source: string; text: string }
  | { kind: 'command'; at: number; by: string; command: Command }
  /** An input appeared or vanished. */
  | { kind: 'link'; at: number; source: string; up: boolean; detail: string }
  /** The daemon reports on itself: a fault that holds (raised) or has ended. */
  | {
      kind: 'fault';
      at: number;
      alert: AlertKind & ('disk' | 'clock' | 'daemon');
      /** Tells faults of one kind apart. */
      subject?: string;
      raised: boolean;
      priority: Priority;
      text: string;
    }
  /** What hawse.yaml or an anchorage file says, at the start and whenever it changes. */
  | {
      kind: 'settings';
      at: number;
      settings: Settings;
      /** Who has changed what, when a person did. */
      note?: string;
    }
  /** Nothing but time passing. */
  | { kind: 'tick'; at: number };
