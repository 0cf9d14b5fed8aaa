import type { State } from '../../../shared/state.ts';
import { helmWords as words } from '../../words/helm.ts';
import { NotWeighing } from '../check/notWeighing.tsx';
import { Hold } from '../hold.tsx';

/** While nobody weighs: the way in, which has to be held. */
export function Idle({ state }: { state: State }) {
  return (
    <NotWeighing
      state={state}
      words={words}
      button={(begin, disabled) => (
        <Hold disabled={disabled} onHeld={begin}>
          {words.start}
        </Hold>
      )}
    />
  );
}
