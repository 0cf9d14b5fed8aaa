import { cautionSound, DIMMEST, dimmer, lengthUnit, palette, screenName, speedUnit } from '../prefs.ts';
import { words } from '../words.ts';
import { Field } from './field.tsx';

/** What this screen alone is set to: units, brightness, name. */
export function Screen() {
  return (
    <section class="screen" aria-label={words.screen.title}>
      <Choice
        label={words.screen.lengths}
        options={['m', 'ft']}
        value={lengthUnit.value}
        onChoice={(unit) => {
          lengthUnit.value = unit;
        }}
      />
      <Choice
        label={words.screen.speeds}
        options={['kn', 'm/s']}
        value={speedUnit.value}
        onChoice={(unit) => {
          speedUnit.value = unit;
        }}
      />
      <Choice
        label={words.screen.cautions}
        options={['note', 'none']}
        value={cautionSound.value}
        onChoice={(choice) => {
          cautionSound.value = choice;
        }}
      />
      {palette.value === 'night' && <Dimmer />}
      <Field
        text
        label={words.screen.name}
        value={screenName.value}
        onChange={(name) => {
          screenName.value = name.slice(0, 40);
        }}
      />
    </section>
  );
}

interface ChoiceProps<T extends string> {
  label: string;
  options: readonly T[];
  value: T;
  onChoice: (value: T) => void;
}

function Choice<T extends string>({ label, options, value, onChoice }: ChoiceProps<T>) {
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {options.map((option) => (
        <label key={option}>
          <input type="radio" name={label} checked={option === value} onChange={() => onChoice(option)} />
          <span>{option}</span>
        </label>
      ))}
    </fieldset>
  );
}

function Dimmer() {
  return (
    <label class="field">
      <span>{words.screen.dimmer}</span>
      <input
        type="range"
        min={DIMMEST}
        max={100}
        step={5}
        value={dimmer.value}
        onInput={(event) => {
          dimmer.value = Number(event.currentTarget.value);
        }}
      />
    </label>
  );
}
