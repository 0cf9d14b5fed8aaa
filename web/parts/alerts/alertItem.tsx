import type { Alert } from '../../../shared/alerts/alert.ts';
import * as commands from '../../commands.ts';
import { clock } from '../../format.ts';
import { told } from '../../told.ts';
import { words } from '../../words.ts';
import { LookOnly, Told, useAsking } from '../asking.tsx';
import { AlertSign } from './alertSign.tsx';
import { measured, needsAnswer, titleOf } from './urgency.ts';

interface Props {
  alert: Alert;
  open: boolean;
  onToggle: () => void;
}

/** One alert: a line that says what, and opened also since when, measured against what, and what can be done about it. */
export function AlertItem({ alert, open, onToggle }: Props) {
  const state = alert.priority === 'caution' ? '' : words.alerts.stateShort[alert.state];
  return (
    // Flashing is for what needs an answer: whoever has acknowledged must not be made to look again.
    <article class={`alert ${alert.priority} ${needsAnswer(alert) ? 'pulses' : ''} ${open ? 'open' : ''}`}>
      <button type="button" class="alert-head" aria-expanded={open} onClick={onToggle}>
        <AlertSign priority={alert.priority} over={alert.state === 'rectified-unacknowledged'} />
        <strong>{words.alerts.priority[alert.priority]}</strong>
        <span>{titleOf(alert)}</span>
        {state && <small>{state}</small>}
      </button>
      {open && <Body alert={alert} />}
    </article>
  );
}

function Body({ alert }: { alert: Alert }) {
  // Once it is over, what is measured now says nothing about what it was.
  const figures = alert.state === 'rectified-unacknowledged' ? {} : measured(alert);
  return (
    <div class="alert-body">
      <p class="measured">
        {figures.value && <strong>{figures.value}</strong>}
        {figures.limit && <span>{words.alerts.limit(figures.limit)}</span>}
        <span class="note">{history(alert)}</span>
      </p>
      <p>{told(alert.text)}</p>
      {needsAnswer(alert) && <Answers alert={alert} />}
    </div>
  );
}

function history({ since, state, escalated, acknowledgedBy, acknowledgedAt }: Alert): string {
  const parts = [words.alerts.since(clock(since))];
  if (state === 'active-silenced' || state === 'rectified-unacknowledged')
    parts.push(words.alerts.state[state]);
  if (escalated) parts.push(words.alerts.escalated);
  if (state === 'active-acknowledged' && acknowledgedBy !== undefined && acknowledgedAt !== undefined) {
    parts.push(words.alerts.acknowledgedBy(acknowledgedBy, clock(acknowledgedAt)));
  }
  return parts.join(' · ');
}

/** Silence and acknowledge: apart, and different in shape, for a hand that is still asleep. */
function Answers({ alert }: { alert: Alert }) {
  const asking = useAsking('acknowledge');
  return (
    <>
      <div class="answers">
        {alert.state === 'active-unacknowledged' && (
          <button
            type="button"
            class="silence"
            disabled={asking.busy}
            onClick={() => asking.run(() => commands.silence(alert.id))}
          >
            {words.alerts.silence}
          </button>
        )}
        <button
          type="button"
          class="acknowledge"
          disabled={asking.busy}
          onClick={() => asking.run(() => commands.acknowledge(alert.id))}
        >
          {words.alerts.acknowledge}
        </button>
      </div>
      <Told asking={asking} />
      <LookOnly needed="acknowledge" />
    </>
  );
}
