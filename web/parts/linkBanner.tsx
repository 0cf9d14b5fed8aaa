import { age, ownClock } from '../format.ts';
import { lastGap, now } from '../live.ts';
import { loss, quietLoss } from '../sounding.ts';
import { phoneWords } from '../words/phone.ts';
import { words } from '../words.ts';

/** Loud, over the whole width, on every page: this page does not know how the boat lies. */
export function LinkBanner() {
  const lost = loss.value;
  // Counts on by this device's clock, since the boat's has stopped arriving.
  now.value;
  if (!lost) return null;
  const quiet = quietLoss.value === lost.since;
  return (
    <section class={quiet ? 'link-banner' : 'link-banner pulses'} aria-label={words.link.region}>
      <p class="what">
        {lost.status === 'stopped'
          ? words.link.stopped
          : words.link.lost(age((Date.now() - lost.since) / 1000))}
      </p>
      <p>
        {lost.status === 'stopped'
          ? words.link.stoppedReason(lost.reason, ownClock(lost.since))
          : words.link.whatToDo}
      </p>
      {!quiet && (
        <button
          type="button"
          class="acknowledge"
          onClick={() => {
            quietLoss.value = lost.since;
          }}
        >
          {words.link.acknowledge}
        </button>
      )}
    </section>
  );
}

/** Once the link is back: how long this page was blind. It stays until somebody has seen it. */
export function GapNote() {
  const gap = lastGap.value;
  if (!gap || loss.value) return null;
  return (
    <section class="strip" aria-label={words.link.region}>
      <p>{phoneWords.gap(gap, ownClock(gap.from), ownClock(gap.to))}</p>
      <button
        type="button"
        onClick={() => {
          lastGap.value = undefined;
        }}
      >
        {words.link.gapSeen}
      </button>
    </section>
  );
}
