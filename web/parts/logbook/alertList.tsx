import type { Night, NightAlert } from '../../../shared/logbook/night.ts';
import { told } from '../../told.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { words as common } from '../../words.ts';
import { AlertSign } from '../alerts/alertSign.tsx';
import { loudAt } from './loud.ts';
import { go, playing, seen } from './opened.ts';
import { alertsAt } from './pastState.ts';
import { lasting, second } from './when.ts';

/** Every alarm and warning of the night; one tap shows how she lay when it came. It is a list to read: nothing here acknowledges. */
export function AlertList({ night }: { night: Night }) {
  const loud = night.alerts
    .filter(({ priority }) => priority !== 'caution')
    .sort((a, b) => loudAt(a) - loudAt(b));
  const quiet = night.alerts.length - loud.length;
  const now = new Set(alertsAt(night.alerts, seen.value).map(({ id }) => id));
  return (
    <section class="past-alerts" aria-label={words.alerts}>
      <h2>{words.alerts}</h2>
      {loud.length === 0 && <p>{words.alertsNone}</p>}
      <ol>
        {loud.map((alert) => (
          <li key={alert.id} class={now.has(alert.id) ? 'holds' : undefined}>
            <button
              type="button"
              onClick={() => {
                playing.value = 0;
                go(loudAt(alert));
              }}
            >
              <AlertSign priority={alert.priority} over={!now.has(alert.id)} />
              <span>
                <strong>
                  {second(loudAt(alert))} {common.alerts.kinds[alert.kind]}
                </strong>{' '}
                {told(alert.text)} <span class="note">{fate(alert)}</span>
                {now.has(alert.id) && <span class="note"> · {words.alertNow}</span>}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {quiet > 0 && <p class="note">{words.cautions(quiet)}</p>}
    </section>
  );
}

const fate = (alert: NightAlert): string => {
  const { acknowledgedBy, acknowledgedAt } = alert;
  return acknowledgedBy !== undefined && acknowledgedAt !== undefined
    ? words.acknowledged(acknowledgedBy, lasting(acknowledgedAt - loudAt(alert)))
    : words.notAcknowledged;
};
