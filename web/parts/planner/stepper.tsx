import { useId } from 'preact/hooks';
import { shown, trusted } from '../../live.ts';
import { words } from '../../words.ts';
import { draft, put, textOf, write } from './draft.ts';
import { FIELDS, fieldText, type Key, stepped, unitOf } from './fields.ts';

/** One figure to plan for: typed, or by steps with the thumb or the arrow keys, or taken as the boat's instruments say it. */
export function Stepper({ name, fault }: { name: Key; fault: string | undefined }) {
  const id = useId();
  const entry = draft.value.entries[name];
  const { label, hint } = words.planner.fields[name];
  const step = (up: boolean) => put(name, stepped(name, entry?.value, up));
  return (
    <div class={fault ? 'stepper wrong' : 'stepper'}>
      <label for={id}>
        {label}, <span class="unit">{unitOf(name)}</span>
      </label>
      <div class="steps">
        <button type="button" aria-label={words.planner.less(label)} onClick={() => step(false)}>
          −
        </button>
        <input
          id={id}
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={textOf(name, entry)}
          aria-invalid={fault !== undefined}
          aria-describedby={`${id}-hint`}
          onInput={(event) => write(name, event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
            event.preventDefault();
            step(event.key === 'ArrowUp');
          }}
        />
        <button type="button" aria-label={words.planner.more(label)} onClick={() => step(true)}>
          +
        </button>
      </div>
      <p id={`${id}-hint`} class={fault ? 'hint trouble' : 'hint note'}>
        {fault ?? hint}
      </p>
      {FIELDS[name].live && <TakeNow name={name} label={label} />}
    </div>
  );
}

function TakeNow({ name, label }: { name: Key; label: string }) {
  const state = shown.value;
  const now = state && trusted.value ? FIELDS[name].live?.(state) : undefined;
  // Its place stays kept while nothing is known, so that nothing below it jumps.
  if (now === undefined) return <p class="take" />;
  const figure = `${fieldText(name, now)}\u00a0${unitOf(name)}`;
  return (
    <button
      type="button"
      class="take"
      aria-label={words.planner.useNow(label, figure)}
      onClick={() => put(name, now)}
    >
      {words.planner.now(figure)}
    </button>
  );
}
