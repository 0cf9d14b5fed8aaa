import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { mayCommand } from '../../live.ts';
import { follow } from '../../router.ts';
import { helmWords as words } from '../../words/helm.ts';
import { Told, useAsking } from '../asking.tsx';
import { Left } from '../check/left.tsx';
import { Hold } from '../hold.tsx';

/** While nobody weighs: the way in; and after a mistaken "aweigh", the way back. */
export function Idle({ state }: { state: State }) {
  const asking = useAsking();
  const hasMark = state.watch.mark !== undefined;
  return (
    <section class="idle">
      {hasMark ? <p class="report">{words.idle}</p> : !state.left && <p class="report">{words.noMark}</p>}
      <Left state={state} />
      {hasMark && (
        <>
          <a href="/check" onClick={follow}>
            {words.check}
          </a>
          <Hold
            disabled={!mayCommand.value || asking.busy}
            onHeld={() => void asking.run(commands.startWeighing)}
          >
            {words.start}
          </Hold>
        </>
      )}
      <Told asking={asking} />
    </section>
  );
}
