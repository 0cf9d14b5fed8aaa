import { shown, trusted } from '../live.ts';
import { loss } from '../sounding.ts';
import { told } from '../told.ts';
import { words } from '../words.ts';

/** Letters from which on the sentence is set smaller, so that the figure below it stays in sight. */
const LONG = 120;

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
  return <p class={text.length > LONG ? 'report long' : 'report'}>{told(text)}</p>;
}
