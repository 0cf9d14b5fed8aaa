import type { Alert } from './alerts/alert.ts';
import type { CableState, Mark } from './watch/view.ts';
import type { Stay } from './weigh/view.ts';

/** What the engine says. `t` is UNIX seconds on its timeline; members that are unknown are left out. Shapes: docs/formats.md. */
export type Event =
  | AlertEvent
  | LieEvent
  | { event: 'weigh'; t: number; stay?: Stay; cable?: CableState; distance?: number; out?: number }
  /** The mark was set or moved; without `mark`: it was closed. */
  | { event: 'mark'; t: number; by: string; mark?: Mark }
  | { event: 'signal'; t: number; by: string; signal: string; number: number }
  /** Something a watch-keeper should be able to read later, e.g. a change of receiver. */
  | { event: 'note'; t: number; text: string };

export interface AlertEvent
  extends Pick<Alert, 'id' | 'kind' | 'priority' | 'state' | 'text' | 'value' | 'limit'> {
  event: 'alert';
  t: number;
  by?: string;
}

export interface LieEvent {
  event: 'lie';
  t: number;
  distance?: number;
  bearing?: number;
  heading?: number;
  lead?: number;
  depth?: number;
  wind?: { speed: number; from: number };
  stream?: { drift: number; set: number };
  divergence?: number;
  cable?: { reach?: number; state?: CableState };
  anchor?: { moved: number; bearing?: number; sigma: number; probability: number };
}

/** Reply to a command. */
export type Answer =
  | { ok: true; mark?: Mark; signal?: number }
  | { ok: false; problem: Problem; why: string };

/** `refused`: makes no sense now; `unknown`: no such alert; `unavailable`: what it needs is not known (e.g. no position). */
export type Problem = 'refused' | 'unknown' | 'unavailable';
