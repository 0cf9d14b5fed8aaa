import type { ComponentChildren } from 'preact';
import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { mayCommand } from '../../live.ts';
import { follow } from '../../router.ts';
import { Told, useAsking } from '../asking.tsx';
import { Left } from './left.tsx';

interface Words {
  idle: string;
  noMark: string;
  check: string;
}

/**
 * While nobody weighs: the way in, by the page's own kind of button, and after a mistaken "aweigh" the way back.
 */
export function NotWeighing({
  state,
  words,
  button,
}: {
  state: State;
  words: Words;
  button(begin: () => void, disabled: boolean): ComponentChildren;
}) {
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
      {hasMark && button(() => void asking.run(commands.startWeighing), !mayCommand.value || asking.busy)}
      <Told asking={asking} />
    </section>
  );
}
