import { useState } from 'preact/hooks';
import * as commands from '../../commands.ts';
import { metresTyped, typed } from '../../format.ts';
import { now } from '../../live.ts';
import { lengthUnit } from '../../prefs.ts';
import { tideWords as words } from '../../words/tide.ts';
import { Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';
import { inOrder, minutesTyped } from './when.ts';

const WATERS = [1, 2, 3, 4];
const DAYS = [-1, 0, 1];
const dayName = (day: number) => (day < 0 ? words.yesterday : day > 0 ? words.tomorrow : words.today);

/** Four waters out of a tide table. */
export function TellTide() {
  const asking = useAsking();
  const [day, setDay] = useState(0);
  const [place, setPlace] = useState('');
  const [rows, setRows] = useState(WATERS.map(() => ({ time: '', height: '' })));
  const change = (index: number, key: 'time' | 'height') => (value: string) =>
    setRows((before) => before.map((row, i) => (i === index ? { ...row, [key]: value } : row)));
  const submit = async (event: Event) => {
    event.preventDefault();
    const filled = rows.filter(({ time, height }) => time.trim() !== '' || height.trim() !== '');
    const minutes = filled.map(({ time }) => minutesTyped(time));
    const heights = filled.map(({ height }) => typed(height));
    if (filled.length < 2 || minutes.includes(undefined) || heights.includes(undefined))
      return asking.say(words.needs);
    const times = inOrder(minutes as number[], day, now.peek());
    const turns = times.map((at, i) => ({ at, height: metresTyped(heights[i]!) }));
    await asking.run(() => commands.tellTide({ turns, ...(place.trim() && { place: place.trim() }) }));
  };
  return (
    <form onSubmit={submit} noValidate>
      <h3>{words.byTable}</h3>
      <p class="note">{words.tableHint}</p>
      <label class="field">
        <span>{words.day}</span>
        <select value={String(day)} onChange={(event) => setDay(Number(event.currentTarget.value))}>
          {DAYS.map((each) => (
            <option key={each} value={String(each)}>
              {dayName(each)}
            </option>
          ))}
        </select>
      </label>
      {rows.map((row, i) => (
        <div class="fields" key={String(WATERS[i])}>
          <Field text label={words.time(i + 1)} value={row.time} onChange={change(i, 'time')} />
          <Field
            label={words.height(i + 1, lengthUnit.value)}
            value={row.height}
            onChange={change(i, 'height')}
          />
        </div>
      ))}
      <Field text label={words.place} value={place} onChange={setPlace} />
      <button type="submit" disabled={asking.busy}>
        {words.save}
      </button>
      <Told asking={asking} done={words.saved} />
    </form>
  );
}
