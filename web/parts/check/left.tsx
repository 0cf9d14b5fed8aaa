import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { age, clock, joined, length, speed } from '../../format.ts';
import { mayCommand, now } from '../../live.ts';
import { checkWords as words } from '../../words/check.ts';
import { Told, useAsking } from '../asking.tsx';
import { Hold } from '../hold.tsx';

/** The anchorage that was left: how she lay there; while it can be, "aweigh" is taken back here. */
export function Left({ state }: { state: State }) {
  const asking = useAsking();
  const { left, cable } = state;
  if (!left || state.watch.phase !== 'no-mark') return null;
  return (
    <section class="left">
      <p class="strong">{words.left(clock(left.at), left.by)}</p>
      <p>{summary(left, cable.workingLoad)}.</p>
      {now.value < left.undoUntil && (
        <Hold disabled={!mayCommand.value || asking.busy} onHeld={() => asking.run(commands.undoAweigh)}>
          {words.undo} ({words.undoUntil(clock(left.undoUntil))})
        </Hold>
      )}
      <Told asking={asking} />
    </section>
  );
}

function summary(
  { at, since, farthest, worstLoad, leaving }: NonNullable<State['left']>,
  workingLoad: number | undefined,
): string {
  const parts = [words.lain(age(at - since))];
  if (farthest !== undefined) parts.push(words.swung(joined(length(farthest))));
  if (worstLoad) {
    parts.push(words.load(force(worstLoad.value), force(2 * worstLoad.sigma), joined(speed(worstLoad.wind))));
    if (workingLoad !== undefined) parts.push(words.share(Math.round((100 * worstLoad.value) / workingLoad)));
  }
  if (leaving.run > 0) parts.push(words.under(joined(length(leaving.run))));
  return parts.join('; ');
}

const force = (newtons: number): string => `${(newtons / 1000).toFixed(1)}\u00a0kN`;
