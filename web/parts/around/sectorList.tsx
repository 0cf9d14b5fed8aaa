import { useState } from 'preact/hooks';
import type { SectorTold } from '../../../shared/commands.ts';
import type { State } from '../../../shared/state.ts';
import type { Sector } from '../../../shared/watch/view.ts';
import * as commands from '../../commands.ts';
import { bearing, joined, length, lengthField, metresTyped, typed } from '../../format.ts';
import { lengthUnit } from '../../prefs.ts';
import { aroundWords as words } from '../../words/around.ts';
import { Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';
import { draft, drawing } from './draft.ts';

const told = ({ name, from, to, beyond }: Sector): SectorTold => ({
  ...(name === undefined ? {} : { name }),
  from,
  to,
  beyond,
});

/** The parts she must not enter: drawn by finger or typed, watched until they are taken away. */
export function SectorList({ state: { watch } }: { state: State }) {
  const asking = useAsking();
  const sectors = watch.sectors ?? [];
  const takeAway = (index: number) => () =>
    asking.run(() => commands.changeWatch({ sectors: sectors.filter((_, i) => i !== index).map(told) }));
  return (
    <section>
      <h3>{words.sectors}</h3>
      {sectors.map((sector, index) => (
        <p key={`${sector.from} ${sector.to} ${sector.beyond}`} class="row">
          {words.sector(sector.name, bearing(sector.from), bearing(sector.to), joined(length(sector.beyond)))}
          <button type="button" disabled={asking.busy} onClick={takeAway(index)}>
            {words.takeAway}
          </button>
        </p>
      ))}
      {watch.mark ? <Draw sectors={sectors} /> : <p class="note">{words.noMark}</p>}
      <Told asking={asking} />
    </section>
  );
}

function Draw({ sectors }: { sectors: readonly Sector[] }) {
  const asking = useAsking();
  const [name, setName] = useState('');
  const drawn = draft.value;
  const field = (key: 'from' | 'to' | 'beyond', label: string) => (
    <Field
      label={label}
      value={drawn ? (key === 'beyond' ? lengthField(drawn.beyond) : String(drawn[key])) : ''}
      onChange={(text) => {
        const value = typed(text);
        if (value === undefined) return;
        const before = draft.value ?? { from: 0, to: 0, beyond: 0 };
        draft.value = { ...before, [key]: key === 'beyond' ? metresTyped(value) : value };
      }}
    />
  );
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!drawn) return asking.say(words.needsNumbers);
    const added = { ...drawn, ...(name.trim() && { name: name.trim() }) };
    await asking.run(async () => {
      const outcome = await commands.changeWatch({ sectors: [...sectors.map(told), added] });
      if (outcome === undefined) {
        draft.value = undefined;
        setName('');
      }
      return outcome;
    });
  };
  return (
    <form onSubmit={submit} noValidate>
      <button
        type="button"
        aria-pressed={drawing.value}
        onClick={() => {
          drawing.value = !drawing.value;
          if (drawing.value) document.querySelector('.plan')?.scrollIntoView({ block: 'center' });
        }}
      >
        {drawing.value ? words.stopDrawing : words.draw}
      </button>
      {drawing.value && <p class="care">{words.drawing}</p>}
      <div class="fields">
        {field('from', words.from)}
        {field('to', words.to)}
        {field('beyond', words.beyond(lengthUnit.value))}
        <Field text label={words.sectorName} value={name} onChange={setName} />
      </div>
      <button type="submit" disabled={asking.busy || !drawn}>
        {words.keep}
      </button>
      <Told asking={asking} done={words.kept} />
    </form>
  );
}
