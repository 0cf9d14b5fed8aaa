import { signal } from '@preact/signals';
import { type Signalled, signalHelm } from '../../commands.ts';
import { give } from '../../sound.ts';
import { buzz } from './buzz.ts';

/** Signals on their way to the helm, and what became of each. */

export type Fate =
  /** Monotonic time in ms. */
  | { is: 'sending'; since: number }
  | { is: 'seen'; after: number; by?: string }
  | { is: 'missed'; kind?: string; why: string };

export interface Sent {
  /** Counts this page's own signals. */
  number: number;
  signal: string;
  fate: Fate;
}

/** Signals of one group say one thing: a newer one of it stands in the place of the older. */
const GROUPS: Record<string, string> = {
  stop: 'engine',
  ahead: 'engine',
  neutral: 'engine',
  astern: 'engine',
  heaving: 'windlass',
  holding: 'windlass',
  snubbed: 'windlass',
  'up-and-down': 'anchor',
  aweigh: 'anchor',
};

const groupOf = (text: string): string => GROUPS[text] ?? text.split(':')[0] ?? text;

/** The last signal of each group, oldest first; what was seen goes as soon as anything newer is sent. */
export const sent = signal<readonly Sent[]>([]);

let lastNumber = 0;

function put(what: string): number {
  const number = ++lastNumber;
  const kept = sent.value.filter(
    ({ signal: old, fate }) => groupOf(old) !== groupOf(what) && fate.is !== 'seen',
  );
  sent.value = [...kept, { number, signal: what, fate: { is: 'sending', since: performance.now() } }];
  return number;
}

let weighing: number | undefined;

/** What was sent in an earlier weighing (they are told apart by their beginning) says nothing about this one. */
export function forgetOthers(since: number): void {
  if (weighing !== undefined && weighing !== since) sent.value = [];
  weighing = since;
}

const find = (number: number): Sent | undefined => sent.peek().find((one) => one.number === number);

function settle(number: number, fate: Fate): void {
  const before = find(number);
  // A later STOP of the same press may be answered first, or something newer has taken its place.
  if (!before || before.fate.is === 'seen') return;
  sent.value = sent.value.map((one) => (one.number === number ? { ...one, fate } : one));
  if (fate.is === 'seen') buzz('seen');
  else if (fate.is === 'missed') {
    buzz('missed');
    give('warning', 1);
  }
}

function fateOf(outcome: Signalled, since: number): Fate {
  if (!outcome.seen)
    return { is: 'missed', why: outcome.why, ...(outcome.kind ? { kind: outcome.kind } : {}) };
  return { is: 'seen', after: (performance.now() - since) / 1000, ...(outcome.by ? { by: outcome.by } : {}) };
}

/** Sends one signal, once: whoever gave it decides whether to give it again. */
export async function send(what: string): Promise<void> {
  buzz('press');
  const since = performance.now();
  const number = put(what);
  settle(number, fateOf(await signalHelm(what), since));
}

/** Milliseconds between two sendings of a STOP. */
const AGAIN_MS = 1000;
/** Not to be sent again after this long: by then people have shouted, and a STOP out of nowhere would hurt. */
const AGAIN_FOR_MS = 60_000;

/** Sends STOP now, and again every second until a helm page has shown one of them or another engine signal takes its place. */
export function sendStop(): void {
  buzz('stop');
  const since = performance.now();
  const number = put('stop');
  const once = async () => {
    const mine = find(number);
    if (!mine || mine.fate.is === 'seen') return;
    if (performance.now() - since > AGAIN_FOR_MS) return;
    setTimeout(once, AGAIN_MS);
    settle(number, fateOf(await signalHelm('stop'), since));
  };
  void once();
}
