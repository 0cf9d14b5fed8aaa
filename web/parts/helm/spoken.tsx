import { computed } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { shown } from '../../live.ts';
import { told } from '../../told.ts';
import { steeringOf } from './steer.ts';

/** What makes the report worth hearing again: what is done or how it stands, and never a mere figure. */
const stageKey = computed(() => {
  const state = shown.value;
  const weigh = state?.weigh;
  if (!state || !weigh) return '';
  const steering = steeringOf(state);
  return [
    weigh.stay?.name,
    weigh.cable?.state,
    weigh.lead?.name,
    weigh.guidance?.engine,
    weigh.nearEnd,
    weigh.brokenOut?.from,
    weigh.adrift !== undefined,
    steering?.side,
    steering?.roundFirst,
    weigh.noGuidance,
  ].join();
});

/** A sentence is heard out before the next one, ms. */
const BREATH_MS = 8000;

/** For a screen reader: the boat's report of the weighing, at a change of what it says and not at each fix. */
export function Spoken() {
  const key = stageKey.value;
  const [text, setText] = useState('');
  const [saidMs, setSaidMs] = useState(Number.NEGATIVE_INFINITY);
  useEffect(() => {
    const wait = Math.max(0, saidMs + BREATH_MS - performance.now());
    const timer = setTimeout(() => {
      setText(told(shown.peek()?.weigh?.report ?? ''));
      setSaidMs(performance.now());
    }, wait);
    return () => clearTimeout(timer);
  }, [key]);
  return (
    <p class="unseen" role="status">
      {text}
    </p>
  );
}
