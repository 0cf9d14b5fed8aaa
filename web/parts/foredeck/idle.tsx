import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { mayCommand } from '../../live.ts';
import { follow } from '../../router.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { Told, useAsking } from '../asking.tsx';
import { Left } from '../check/left.tsx';

/** While nobody weighs, signals would reach nobody: the page says so and offers the beginning. */
export function Idle({ state }: { state: State }) {
  const asking = useAsking();
  const hasMark = state.watch.mark !== undefined;
  return (
    <section class="idle">
      {hasMark ? <p class="report">{words.idle}</p> : !state.left && <p class="report">{words.noMark}</p>}
      <Left state={state} />
      {hasMark && (
        <a href="/check" onClick={follow}>
          {words.check}
        </a>
      )}
      {hasMark && (
        <button
          type="button"
          class="primary"
          disabled={!mayCommand.value || asking.busy}
          onClick={() => asking.run(commands.startWeighing)}
        >
          {words.start}
        </button>
      )}
      <Told asking={asking} />
    </section>
  );
}
