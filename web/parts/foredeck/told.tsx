import { computed } from '@preact/signals';
import { age } from '../../format.ts';
import { mayCommand, now, shown, trusted } from '../../live.ts';
import { told } from '../../told.ts';
import { signalInWords, foredeckWords as words } from '../../words/foredeck.ts';
import { words as common } from '../../words.ts';
import { helm } from './helm.ts';
import { type Sent, sent } from './sending.ts';

/** Above the targets, most pressing first: no link, a signal that was not seen, the boat's alert; else the last signal and the caution. */
export function Told() {
  // Counts seconds while a signal is under way.
  now.value;
  const is = helm.value;
  if (is.is === 'no-link')
    return (
      <div class="told-now loud" role="alert">
        {words.noLink(age((Date.now() - is.since) / 1000))}
      </div>
    );
  const missed = sent.value.findLast(({ fate }) => fate.is === 'missed');
  const last = sent.value.at(-1);
  return (
    <div class={missed ? 'told-now loud' : 'told-now'}>
      <p role="status" class="fate-line">
        {missed ? inWords(missed) : last ? inWords(last) : mayCommand.value ? '' : common.lookOnly}
      </p>
      {!missed && <Pressing />}
    </div>
  );
}

const alert = computed(() =>
  (shown.value?.alerts ?? []).find(
    ({ priority, state }) =>
      priority !== 'caution' && (state === 'active-unacknowledged' || state === 'active-silenced'),
  ),
);

/** The boat's own alert, else the caution that belongs to this place. */
function Pressing() {
  const now = alert.value;
  if (now)
    return (
      <p class="pressing">
        {common.alerts.priority[now.priority]}: {told(now.text)}
      </p>
    );
  return <p class="caution">{trusted.value ? words.caution : words.figuresOld}</p>;
}

function inWords({ signal, fate }: Sent): string {
  const what = signalInWords(signal);
  switch (fate.is) {
    case 'sending':
      return words.sending(what, seconds((performance.now() - fate.since) / 1000));
    case 'seen':
      return words.seen(what, fate.by || words.theHelm, seconds(fate.after));
    case 'missed':
      return words.missed(what, why(fate.kind, fate.why), signal === 'stop' ? words.stopAgain : words.again);
  }
}

/** In a few words, by what the boat tells of the helm's pages; the boat's own words when it refused for another reason. */
function why(kind: string | undefined, told: string): string {
  if (kind === undefined) return words.why.noLink;
  if (kind !== 'not-shown') return told;
  const is = helm.value;
  switch (is.is) {
    case 'hidden':
      return words.why.hidden(is.name || words.theHelm);
    case 'no-key':
      return words.why.noKey;
    case 'sees':
      return words.why.slow(is.name || words.theHelm);
    default:
      return words.why.noHelm;
  }
}

const seconds = (value: number): string => `${value.toFixed(1)}\u00a0s`;
