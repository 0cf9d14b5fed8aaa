import type { State } from '../../../shared/state.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { NotWeighing } from '../check/notWeighing.tsx';

/** While nobody weighs, signals would reach nobody: the page says so and offers the beginning. */
export function Idle({ state }: { state: State }) {
  return (
    <NotWeighing
      state={state}
      words={words}
      button={(begin, disabled) => (
        <button type="button" class="primary" disabled={disabled} onClick={begin}>
          {words.start}
        </button>
      )}
    />
  );
}
