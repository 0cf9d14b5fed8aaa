/** A way in which alerts leave the boat's computer, and whether it does its work. */
export interface OutputView {
  id: string;
  kind: 'command' | 'serial' | 'udp' | 'webhook';
  /** What it is, in words: program, device or address. */
  what: string;
  /** It tells an alert now; a command: it sounds. */
  on: boolean;
  /** Its last work failed: what it should tell does not get out. */
  failing: boolean;
  /** Absent: not used yet since the daemon's start. UNIX seconds. */
  lastOk?: number;
  lastFailure?: { at: number; why: string };
  lastTest?: { at: number; by: string; ok: boolean; detail: string };
}
