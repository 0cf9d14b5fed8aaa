import { shown, trusted } from '../live.ts';
import { loss } from '../sounding.ts';
import { tied, words } from '../words.ts';

/** The state in one sentence, as the boat says it; without word from the boat the page says only that. */
export function Report() {
  const state = shown.value;
  const text = loss.value
    ? words.link.report
    : !state
      ? words.callingDetail
      : trusted.value
        ? state.report
        : words.link.standstill;
  return <p class="report">{tied(text)}</p>;
}

/** What the boat leaves unwatched at present, said wherever her state is said: nobody should think it were watched. */
export function StandDown() {
  const kinds = shown.value?.watch.standDown ?? [];
  if (kinds.length === 0) return null;
  const names = kinds.map((kind) => words.alerts.kinds[kind].toLowerCase()).join(', ');
  return <p class="stand-down">{words.watch.standDown(names)}</p>;
}
