import { batch, computed, signal } from '@preact/signals';
import { mayDo, type Role } from '../shared/access.ts';
import type { ServerMessage } from '../shared/messages.ts';
import type { State } from '../shared/state.ts';
import type { TrackPoint } from '../shared/watch/view.ts';

/** What the boat has told this page, and whether it still does. Only `connection.ts` feeds it. */

export type Link =
  | { status: 'calling' }
  | { status: 'open' }
  /** No message for 6 s, since that wall-clock time in ms. */
  | { status: 'lost'; since: number }
  /** The daemon has said goodbye. */
  | { status: 'stopped'; since: number; reason: string };

/** A stretch in which this page watched nothing; wall-clock ms. */
export interface Gap {
  from: number;
  to: number;
  why: 'asleep' | 'no-word' | 'closed';
}

export const QUIET_LIMIT_MS = 6000;
/** A page open for days would gather points without end; the plan needs no more than a few days at one a few seconds. */
const TRACK_KEPT = 20_000;

export const link = signal<Link>({ status: 'calling' });
/** What this screen may do, and the name of the key that its browser bears. */
export const role = signal<Role>('command');
export const bearer = signal<string | undefined>(undefined);
export const mayCommand = computed(() => mayDo(role.value, 'command'));
/** The boat has refused to tell this screen anything: only paired ones may look. */
export const barred = signal(false);
/** Counted up when this screen's standing is another: the link is made anew. */
export const anew = signal(0);
export const lastGap = signal<Gap | undefined>(undefined);
export const track = signal<readonly TrackPoint[]>([]);
const told = signal<State | undefined>(undefined);

/** Seconds to add to the boat's own times for the receiver's UTC. */
export const clockOffset = computed(() => told.value?.vessel.clockOffset ?? 0);

/** The boat's time, UNIX seconds, carried on between messages by this device's own clock. */
export const now = signal(0);
let anchor = { at: 0, ms: 0 };

/** Seconds since the boat's figures were true, by this device's clock: a rehearsal's own time may run faster. */
export const viewAge = signal(0);
let viewMs = 0;

export function advance(monotonicMs: number): void {
  if (anchor.at === 0) return;
  now.value = anchor.at + (monotonicMs - anchor.ms) / 1000;
  viewAge.value = Math.max(0, (monotonicMs - viewMs) / 1000);
}

/** This device has slept, and so have its clocks: the figures it still holds are of before, whatever their age seems to be. */
const slept = signal(false);

export function doubtFigures(): void {
  slept.value = true;
}

/** False when the figures must not be shown: the link is lost, or messages come but the boat's figures stand still. */
export const trusted = computed(
  () =>
    link.value.status === 'open' &&
    told.value !== undefined &&
    viewAge.value <= QUIET_LIMIT_MS / 1000 &&
    !slept.value,
);

/** The state as pages may show it: without trust, every figure of the boat is taken out here, once for all parts. */
export const shown = computed<State | undefined>(() => {
  const state = told.value;
  return state === undefined || trusted.value ? state : withoutFigures(state);
});

function withoutFigures(state: State): State {
  const { phase, mark, veered, circle, limits, standDown } = state.watch;
  return {
    ...state,
    // Even without figures it is true that she was being weighed, and what the last signal was.
    ...(state.weigh && { weigh: weighingOnly(state.weigh) }),
    // What was measured then is not what is measured now.
    ...(state.check && { check: { ...state.check, measured: [] } }),
    vessel: { at: state.vessel.at, ages: {}, sources: {} },
    watch: {
      phase,
      limits,
      standDown,
      ...(mark && { mark }),
      ...(veered !== undefined && { veered }),
      ...(circle && { circle }),
    },
  };
}

const weighingOnly = ({ since, lastSignal }: NonNullable<State['weigh']>): NonNullable<State['weigh']> => ({
  since,
  ...(lastSignal && { lastSignal }),
});

/** Takes one message in. Returns false when messages are missing before it, so that the caller asks for them. */
export function take(message: ServerMessage, seq: number | undefined, monotonicMs: number): boolean {
  if (message.type === 'update' || message.type === 'track' || message.type === 'event') {
    if (seq !== undefined && message.seq <= seq) return true;
    if (seq === undefined || message.seq !== seq + 1) return false;
  }
  batch(() => {
    anchor = { at: message.at, ms: monotonicMs };
    change(message);
    if (message.type === 'snapshot') {
      slept.value = false;
      viewMs = monotonicMs - 1000 * Math.max(0, message.at - message.state.vessel.at);
    } else if (message.type === 'update' && message.set.vessel) viewMs = monotonicMs;
    advance(monotonicMs);
  });
  return true;
}

function change(message: ServerMessage): void {
  switch (message.type) {
    case 'snapshot':
      told.value = message.state;
      track.value = message.track;
      role.value = message.role;
      bearer.value = message.bearer;
      barred.value = false;
      break;
    case 'update': {
      if (!told.value) return;
      const next = { ...told.value, ...message.set };
      for (const member of message.unset ?? []) delete next[member];
      told.value = next;
      break;
    }
    case 'track':
      track.value = [...track.value, ...message.append].slice(-TRACK_KEPT);
      break;
    case 'goodbye':
      link.value = { status: 'stopped', since: Date.now(), reason: message.reason };
      break;
  }
}
