import { computed, signal } from '@preact/signals';
import type { Alert } from '../shared/alerts/alert.ts';
import { link, shown } from './live.ts';
import { vibrate } from './phone/vibration.ts';
import { cautionSound } from './prefs.ts';
import { checkSound, give } from './sound.ts';
import { VOICES, type VoiceName } from './voices.ts';

/** Decides what is to be heard: from what the alerts and the link are, never from passing events. */

/** Seconds between repeats: the standard's 7 s for alarms and at most 60 s for warnings; the lost link's is ours. A caution has none. */
const REPEAT: Record<'alarm' | 'linkLost' | 'warning' | 'caution', number> = {
  alarm: 7,
  linkLost: 6,
  warning: 60,
  caution: Number.POSITIVE_INFINITY,
};
/** Loudness of an alarm's first rounds; from the fourth on it is full. */
const RISING = [0.4, 0.6, 0.8];
/** Quiet between two voices that are due together, seconds. */
const BREATH = 0.4;

/** The loss that a person on this screen has acknowledged (its beginning, ms): it stays on the screen and is quiet. */
export const quietLoss = signal<number | undefined>(undefined);

export const loss = computed(() => {
  const now = link.value;
  return now.status === 'lost' || now.status === 'stopped' ? now : undefined;
});

const sounding = (priority: Alert['priority']) =>
  (shown.value?.alerts ?? [])
    .filter((alert) => alert.priority === priority && alert.state === 'active-unacknowledged')
    .map((alert) => alert.id);

/** Cautions need no acknowledgement; what was heard once is not due again. */
const cautions = () =>
  (shown.value?.alerts ?? []).filter(({ priority }) => priority === 'caution').map(({ id }) => id);

/** Which situations ask for each voice, most urgent first. */
const asking = computed<[keyof typeof REPEAT, string[]][]>(() => [
  ['alarm', sounding('alarm')],
  ['linkLost', loss.value && loss.value.since !== quietLoss.value ? [String(loss.value.since)] : []],
  ['warning', sounding('warning')],
  ['caution', cautionSound.value === 'note' ? cautions() : []],
]);

interface Round {
  ids: string[];
  dueMs: number;
  rounds: number;
}

const rounds: Partial<Record<VoiceName, Round>> = {};
let busyUntilMs = 0;

/** To be called on every heartbeat and whenever the alerts change. One voice at a time; what is due waits its turn. */
export function sounds(monotonicMs: number): void {
  checkSound(monotonicMs);
  for (const [voice, ids] of asking.peek()) {
    const before = rounds[voice];
    if (ids.length === 0) {
      delete rounds[voice];
      continue;
    }
    const isNew = !before || ids.some((id) => !before.ids.includes(id));
    const round = isNew ? { ids, dueMs: monotonicMs, rounds: 0 } : { ...before, ids };
    rounds[voice] = round;
    if (round.dueMs > monotonicMs || busyUntilMs > monotonicMs) continue;
    const level = voice === 'alarm' ? (RISING[round.rounds] ?? 1) : 1;
    if (!give(voice, level)) continue;
    if (voice === 'alarm' || voice === 'linkLost') vibrate();
    round.rounds++;
    round.dueMs = monotonicMs + REPEAT[voice] * 1000;
    busyUntilMs = monotonicMs + (VOICES[voice].lasts + BREATH) * 1000;
  }
}
