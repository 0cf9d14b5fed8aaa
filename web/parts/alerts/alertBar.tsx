import { useSignal } from '@preact/signals';
import type { Alert } from '../../../shared/alerts/alert.ts';
import { shown, trusted } from '../../live.ts';
import { words } from '../../words.ts';
import { AlertItem } from './alertItem.tsx';
import { byUrgency, needsAnswer } from './urgency.ts';

/** So many alerts keep a line; of more, those that sound for nobody wait behind one line, so that her picture stays in view. */
const LINES = 3;

const isOn = ({ state }: Alert) => state !== 'rectified-unacknowledged';

/** Under the thumb: the most urgent alert in full, the others a line each. Absent while all is well. */
export function AlertBar() {
  const chosen = useSignal<{ id: string | undefined; over: string } | undefined>(undefined);
  const whole = useSignal(false);
  const alerts = byUrgency(shown.value?.alerts ?? []);
  const first = alerts[0];
  if (!first) return null;
  // What a person has opened or closed holds until something more urgent comes up.
  const choice = chosen.value?.over === first.id ? chosen.value : undefined;
  const open = choice ? choice.id : needsAnswer(first) ? first.id : undefined;
  const front = alerts.filter((alert, i) => i < LINES || (isOn(alert) && needsAnswer(alert)));
  const behind = alerts.length - front.length;
  const lines = whole.value ? alerts : front;
  return (
    <section class="alerts" aria-label={words.alerts.region}>
      {!trusted.value && <p class="note last-heard">{words.alerts.asLastHeard}</p>}
      {lines.map((alert) => (
        <AlertItem
          key={alert.id}
          alert={alert}
          open={alert.id === open}
          onToggle={() => {
            chosen.value = { id: alert.id === open ? undefined : alert.id, over: first.id };
          }}
        />
      ))}
      {behind > 0 && (
        <button
          type="button"
          class="alert-more"
          aria-expanded={whole.value}
          onClick={() => {
            whole.value = !whole.value;
          }}
        >
          {whole.value ? words.alerts.fewer : words.alerts.more(behind)}
        </button>
      )}
    </section>
  );
}
