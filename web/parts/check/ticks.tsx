import { signal } from '@preact/signals';
import type { CheckView } from '../../../shared/weigh/check-view.ts';
import * as commands from '../../commands.ts';
import { clock } from '../../format.ts';
import { mayCommand } from '../../live.ts';
import { checkWords as words } from '../../words/check.ts';
import { Told, useAsking } from '../asking.tsx';

/** What this screen has ticked; it outlives a change of page, not the anchorage. */
export const ticked = signal<readonly string[]>([]);

let tickedAt: number | undefined;

/** Ticks belong to the anchorage of the mark that was set then (UNIX seconds). */
export function forgetOtherTicks(mark: number | undefined): void {
  if (tickedAt !== mark) ticked.value = [];
  tickedAt = mark;
}

export const openItems = ({ items }: CheckView): string[] =>
  items.filter((item) => !ticked.value.includes(item));

/** The list that people go through, and the button that takes it into the journal as it stands. */
export function Ticks({ check }: { check: CheckView }) {
  const asking = useAsking();
  const { items, last } = check;
  const done = items.filter((item) => ticked.value.includes(item));
  return (
    <>
      <ul class="ticks">
        {items.map((item) => (
          <li key={item}>
            <label>
              <input
                type="checkbox"
                checked={ticked.value.includes(item)}
                onChange={(event) => {
                  const others = ticked.value.filter((other) => other !== item);
                  ticked.value = event.currentTarget.checked ? [...others, item] : others;
                }}
              />
              <span>{item}</span>
            </label>
          </li>
        ))}
      </ul>
      <button
        type="button"
        disabled={!mayCommand.value || asking.busy}
        onClick={() => asking.run(() => commands.departureCheck(done))}
      >
        {words.done(done.length, items.length)}
      </button>
      <Told asking={asking} done={words.logged} />
      {last && (
        <p class="note">
          {words.last(clock(last.at), last.by)}, {words.open(last.open)}.
        </p>
      )}
    </>
  );
}
