import { batch, computed, effect, signal } from '@preact/signals';
import type { Night } from '../../../shared/logbook/night.ts';
import type { State } from '../../../shared/state.ts';
import { call } from '../../commands.ts';
import { ofThePast } from '../../past.ts';
import { type Asked, ask } from '../../review/engine.ts';
import type { Loaded, Progress } from '../../review/messages.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { loudAt } from './loud.ts';
import { indexAt, pastState, trackUntil } from './pastState.ts';
import { span } from './strips.ts';

/** The night that is looked at, and the moment of it. Nothing here comes from the watch that goes on, or reaches it. */

export type Opened =
  | { night: Night; from: 'boat' }
  | { night: Night; from: 'file'; name: string; notes: string[] };

export const opened = signal<Opened | undefined>(undefined);
export const opening = signal<string | undefined>(undefined);
export const trouble = signal<string | undefined>(undefined);

/** The moment that is shown, UNIX seconds. */
export const at = signal(0);
/** The moment that plan, side view and figures are drawn of: a slow phone has to draw them less often than the bar's line moves. */
export const seen = signal(0);
/** Between two drawings at least so long, and twice as long as the last one took: the line under the finger goes before. */
const LEAST_MS = 40;
const MOST_MS = 500;
let drawingTook = LEAST_MS;
let isWaiting = false;

/** How many times faster than it was; 0: it stands. */
export const playing = signal(0);
/** A finger is on the time bar. */
export const scrubbing = signal(false);

/** How far the engine is with living the night again; once it is through, any moment is exact. */
export const living = signal<{ progress: Progress; asked: Asked<Loaded> } | undefined>(undefined);
export const loaded = signal<(Pick<Loaded, 'exact' | 'raised'> & { night: Loaded['night'] }) | undefined>(
  undefined,
);
export const livingTrouble = signal<string | undefined>(undefined);

const OPEN_LIMIT_MS = 30_000;
/** Above so many times the samples are as good as the eye, and the engine need not keep up. */
const EXACT_UP_TO = 60;

export async function openNight(id: string): Promise<void> {
  close();
  opening.value = id;
  const { trouble: why, answer } = await call('GET', `/nights/${id}`, undefined, OPEN_LIMIT_MS);
  if (opening.value !== id) return;
  opening.value = undefined;
  if (why !== undefined) trouble.value = why;
  else show({ night: answer as Night, from: 'boat' });
}

function show(found: Opened): void {
  batch(() => {
    opened.value = found;
    at.value = firstMoment(found.night);
  });
}

/** Where one looks first: when the first alarm came, else the mark. */
function firstMoment({ alerts, summary }: Night): number {
  const alarms = alerts.filter((alert) => alert.priority === 'alarm' && loudAt(alert) >= summary.from);
  return alarms.length > 0 ? Math.min(...alarms.map(loudAt)) : summary.from;
}

export function close(): void {
  living.peek()?.asked.cancel();
  batch(() => {
    opened.value = undefined;
    opening.value = undefined;
    trouble.value = undefined;
    living.value = undefined;
    loaded.value = undefined;
    livingTrouble.value = undefined;
    exact.value = undefined;
    playing.value = 0;
    scrubbing.value = false;
  });
}

/** Has the engine live the night again from its recorded sentences, so that every second of it can be seen. */
export async function liveAgain(): Promise<void> {
  const now = opened.peek();
  if (now?.from !== 'boat' || living.peek() || loaded.peek()) return;
  const { id } = now.night.summary;
  const asked = ask({ do: 'night', id, url: `/api/v1/nights/${id}/inputs` }, (progress) => {
    if (living.peek()?.asked === asked) living.value = { progress, asked };
  });
  livingTrouble.value = undefined;
  living.value = { progress: {}, asked };
  try {
    const found = await asked.answer;
    if (living.peek()?.asked === asked)
      batch(() => {
        living.value = undefined;
        loaded.value = found;
      });
  } catch (error) {
    if (living.peek()?.asked !== asked) return;
    living.value = undefined;
    livingTrouble.value = stopped(error) ? undefined : (error as Error).message;
  }
}

/** The worker says of what was cancelled that it was aborted. */
export const stopped = (error: unknown): boolean => /abort/i.test((error as Error).message);

/** A night out of a file on this device: the engine here makes it, and the boat hears nothing of it. */
export function openFile(asked: Asked<Loaded>, name: string): void {
  close();
  opening.value = name;
  void asked.answer.then(
    (found) => {
      if (opening.peek() !== name) return;
      batch(() => {
        opening.value = undefined;
        living.value = undefined;
        show({ night: { ...found.night, checksums: [] }, from: 'file', name, notes: found.notes });
        loaded.value = found;
      });
    },
    (error) => {
      if (opening.peek() !== name) return;
      batch(() => {
        opening.value = undefined;
        living.value = undefined;
        trouble.value = stopped(error) ? words.cancelled : (error as Error).message;
      });
    },
  );
}

export const follow = (asked: Asked<Loaded>, progress: Progress): void => {
  if (opening.peek() !== undefined) living.value = { progress, asked };
};

export function go(to: number): void {
  const now = opened.peek();
  if (!now) return;
  const { from, to: end } = span(now.night);
  at.value = Math.min(end, Math.max(from, to));
}

/** The next alert that was raised after, or the one before, the moment that is shown. */
export function alertBeside(night: Night, moment: number, way: 1 | -1): number | undefined {
  const times = night.alerts
    .filter(({ priority }) => priority !== 'caution')
    .map(loudAt)
    .sort((a, b) => a - b);
  return way > 0 ? times.find((time) => time > moment + 0.5) : times.findLast((time) => time < moment - 0.5);
}

effect(() => {
  const moment = at.value;
  if (!scrubbing.value && playing.value <= EXACT_UP_TO) {
    seen.value = moment;
    return;
  }
  if (isWaiting) return;
  isWaiting = true;
  setTimeout(
    () => {
      isWaiting = false;
      seen.value = at.peek();
      const begun = performance.now();
      requestAnimationFrame(() =>
        setTimeout(() => {
          drawingTook = performance.now() - begun;
        }),
      );
    },
    Math.min(MOST_MS, Math.max(LEAST_MS, 2 * drawingTook)),
  );
});

/** The state as the engine itself had it, of the moment that it was last asked for. */
const exact = signal<State | undefined>(undefined);
let isAsking = false;

effect(() => {
  const moment = at.value;
  if (!loaded.value || scrubbing.value || playing.value > EXACT_UP_TO) return;
  void askExact(moment);
});

async function askExact(moment: number): Promise<void> {
  if (isAsking || exact.peek()?.at === moment) return;
  isAsking = true;
  try {
    const past = await ask({ do: 'moment', at: moment }).answer;
    const simulated = opened.peek()?.night.summary.simulated;
    if (loaded.peek())
      exact.value = ofThePast({ ...past, pages: [], ...(simulated === undefined ? {} : { simulated }) });
  } catch (error) {
    livingTrouble.value = (error as Error).message;
  } finally {
    isAsking = false;
  }
  if (loaded.peek() && at.peek() !== moment && playing.peek() <= EXACT_UP_TO && !scrubbing.peek())
    void askExact(at.peek());
}

/** What is shown: exact where the engine has it, else by the samples. */
export const past = computed<{ state: State; exact: boolean } | undefined>(() => {
  const now = opened.value;
  if (!now) return undefined;
  const state = exact.value;
  const late = Math.max(0.001, playing.value);
  const holds =
    state && playing.value <= EXACT_UP_TO && !scrubbing.value && Math.abs(state.at - seen.value) <= late;
  return holds ? { state, exact: true } : { state: pastState(now.night, seen.value), exact: false };
});

const trackIndex = computed(() => (opened.value ? indexAt(opened.value.night.strips, seen.value) : -1));
export const pastTrack = computed(() => {
  const last = opened.value?.night.strips[trackIndex.value];
  return opened.value && last ? trackUntil(opened.value.night, last.at) : [];
});
