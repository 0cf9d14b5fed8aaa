import { useState } from 'preact/hooks';
import type { HandNeighbour } from '../../../shared/neighbours/view.ts';
import * as commands from '../../commands.ts';
import { metresTyped, typed } from '../../format.ts';
import { lengthUnit } from '../../prefs.ts';
import { aroundWords as words } from '../../words/around.ts';
import { Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';

const EMPTY = { name: '', range: '', bearing: '', length: '', cable: '' };

/** A boat without AIS, put on the plan by range and bearing. */
export function TellNeighbour() {
  const asking = useAsking();
  const [told, setTold] = useState(EMPTY);
  const field = (key: keyof typeof EMPTY, label: string, hint?: string) => (
    <Field
      label={label}
      text={key === 'name'}
      value={told[key]}
      onChange={(value) => setTold((before) => ({ ...before, [key]: value }))}
      {...(hint && { hint })}
    />
  );
  const submit = async (event: Event) => {
    event.preventDefault();
    const her = neighbourOf(told);
    if (!her) return asking.say(words.needs);
    await asking.run(async () => {
      const outcome = await commands.tellNeighbour(her);
      if (outcome === undefined) setTold(EMPTY);
      return outcome;
    });
  };
  return (
    <form onSubmit={submit} noValidate>
      <h3>{words.tell}</h3>
      <div class="fields">
        {field('range', words.range(lengthUnit.value))}
        {field('bearing', words.bearing)}
        {field('name', words.name)}
        {field('length', words.length(lengthUnit.value), words.guessed)}
        {field('cable', words.cable(lengthUnit.value), words.guessed)}
      </div>
      <button type="submit" disabled={asking.busy}>
        {words.save}
      </button>
      <Told asking={asking} done={words.saved} />
    </form>
  );
}

function neighbourOf({ name, range, bearing, length, cable }: typeof EMPTY): HandNeighbour | undefined {
  const far = typed(range);
  const bears = typed(bearing);
  const long = typed(length);
  const veered = typed(cable);
  if (far === undefined || bears === undefined) return undefined;
  return {
    range: metresTyped(far),
    bearing: bears,
    ...(name.trim() && { name: name.trim() }),
    ...(long === undefined ? {} : { length: metresTyped(long) }),
    ...(veered === undefined ? {} : { veered: metresTyped(veered) }),
  };
}
