import { computed, effect, signal } from '@preact/signals';
import type { Alert } from '../../shared/alerts/alert.ts';
import { shown } from '../live.ts';
import { loss } from '../sounding.ts';
import { told } from '../told.ts';
import { words } from '../words.ts';
import { titleOf } from './alerts/urgency.ts';

/** The one live region: a screen reader hears each change of an alert or of the link once, and never a mere fix. */

const spoken = signal('');
const states = new Map<string, Alert['state']>();

/** Changes only when an alert changes its state, not with every figure in its text. */
const stateKey = computed(() => (shown.value?.alerts ?? []).map(({ id, state }) => `${id} ${state}`).join());

effect(() => {
  stateKey.value;
  const changed = (shown.peek()?.alerts ?? []).filter(({ id, state }) => states.get(id) !== state);
  if (changed.length === 0) return;
  for (const { id, state } of changed) states.set(id, state);
  spoken.value = changed.map(say).join(' ');
});

const lossStatus = computed(() => loss.value?.status);

effect(() => {
  if (lossStatus.value === 'stopped') spoken.value = words.link.stopped;
  else if (lossStatus.value === 'lost') spoken.value = words.link.report;
});

function say(alert: Alert): string {
  const { priority, state, text } = alert;
  const head = `${words.alerts.priority[priority]}: ${titleOf(alert)}.`;
  return state === 'active-unacknowledged' || priority === 'caution'
    ? `${head} ${told(text)}`
    : `${head} ${words.alerts.state[state] || words.alerts.over}.`;
}

export function Announcer() {
  return (
    <div role="alert" class="unseen">
      {spoken.value}
    </div>
  );
}
