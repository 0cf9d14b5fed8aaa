import type { State } from '../../../shared/state.ts';
import { bearing } from '../../format.ts';
import { type FieldKey, setupWords as words } from '../../words/setup.ts';
import { SIZES } from '../planner/chain.ts';
import { active, boatTyped, fieldOf, hasFile, metres, put, textOf, typed } from './draft.ts';
import { Drawing } from './drawing.tsx';

const GROUPS: [keyof typeof words.groups, FieldKey[]][] = [
  ['boat', ['boat.name', 'boat.length', 'boat.beam', 'boat.draft', 'boat.roller.height']],
  ['antenna', ['boat.antenna.aftOfRoller', 'boat.antenna.toStarboard']],
  ['sounder', ['boat.sounder.belowWaterline', 'boat.sounder.aftOfRoller']],
  ['cable', ['cable.massPerMetre', 'cable.workingLoad', 'cable.length', 'cable.rope', 'cable.veered']],
  [
    'watch',
    [
      'watch.margin',
      'watch.circleRadius',
      'watch.depthBelow',
      'watch.depthAbove',
      'watch.underKeelBelow',
      'watch.windAbove',
      'watch.windShift',
    ],
  ],
];

/** Every figure that the page changes, and the drawing that shows which length is meant. */
export function Figures({ state, locked }: { state: State; locked: boolean }) {
  const key = active.value;
  return (
    <section class="figures-form">
      <h2>{words.figures}</h2>
      <Drawing
        boat={boatTyped(state.boat)}
        lengths={lengths()}
        active={drawn(key)}
        label={key && labelOf(key)}
      />
      <p class="note">{words.unitHint}</p>
      {GROUPS.map(([group, keys]) => (
        <fieldset key={group}>
          <legend>{words.groups[group]}</legend>
          <div class="fields">
            {group === 'boat' && <Hull locked={locked} />}
            {group === 'cable' && <Chain locked={locked} />}
            {keys.map((one) => (
              <FigureField key={one} name={one} locked={locked} />
            ))}
          </div>
          {group === 'watch' && <Card />}
        </fieldset>
      ))}
    </section>
  );
}

/** Figures that are no length have no drawing. */
const UNDRAWN: readonly FieldKey[] = [
  'boat.name',
  'cable.massPerMetre',
  'cable.workingLoad',
  'watch.windAbove',
  'watch.windShift',
];
const drawn = (key: FieldKey | undefined): FieldKey | undefined =>
  key && UNDRAWN.includes(key) ? undefined : key;

/** Of cable and circle, for the drawing. */
function lengths() {
  const veered = Math.min(150, Math.max(8, metres('cable.veered') ?? 35));
  const chain = Math.max(1, metres('cable.length') ?? 60);
  return {
    veered,
    chain,
    rope: Math.max(0, metres('cable.rope') ?? 0),
    margin: Math.min(50, Math.max(0, metres('watch.margin') ?? 6)),
  };
}

/** What stands beside the strong line: as typed, with the unit that is meant. */
function labelOf(key: FieldKey): string {
  const text = textOf(key).trim();
  if (text === '') return valueText(key) ?? '?';
  const unit = /[a-z]+$/.exec(fieldOf(key)?.written ?? '')?.[0] ?? 'm';
  return /\d$/.test(text) ? `${text}\u00a0${unit}` : text;
}

function valueText(key: FieldKey): string | undefined {
  const value = fieldOf(key)?.value;
  if (typeof value !== 'number') return value;
  const figure = String(Math.round(value * 100) / 100);
  if (key === 'cable.massPerMetre') return `${figure}\u00a0kg/m`;
  if (key === 'cable.workingLoad') return `${Math.round(value)}\u00a0N`;
  if (key === 'watch.windAbove') return `${figure}\u00a0m/s`;
  if (key === 'watch.windShift') return `${figure}°`;
  return `${figure}\u00a0m`;
}

/** Where nothing may be changed, the drawing still shows what each figure means. */
function FigureField({ name, locked }: { name: FieldKey; locked: boolean }) {
  const { label, means } = words.fields[name];
  const isSet = !hasFile.value || fieldOf(name)?.written !== undefined;
  const assumed = valueText(name);
  const now = isSet ? '' : assumed === undefined ? words.notSet : words.assumed(assumed);
  return (
    <label class={typed.value[name] === undefined ? 'field' : 'field changed'}>
      <span>{label}</span>
      <input
        type="text"
        // A keyboard for numbers has neither units nor, on some phones, a minus.
        inputMode="text"
        autocomplete="off"
        readOnly={locked}
        value={textOf(name)}
        onFocus={() => {
          active.value = name;
        }}
        onInput={(event) => put(name, event.currentTarget.value)}
      />
      <small>{[means, now].filter(Boolean).join(' ')}</small>
    </label>
  );
}

function Hull({ locked }: { locked: boolean }) {
  const { hulls } = words;
  const now = textOf('boat.hull') || String(fieldOf('boat.hull')?.value ?? 'monohull');
  return (
    <label class="field">
      <span>{words.hull}</span>
      <select disabled={locked} value={now} onChange={(event) => put('boat.hull', event.currentTarget.value)}>
        {Object.entries(hulls).map(([hull, name]) => (
          <option key={hull} value={hull}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** By the size as sold; sizes that are not in the table are told by weight. */
function Chain({ locked }: { locked: boolean }) {
  const text = textOf('cable.size');
  const value = fieldOf('cable.size')?.value;
  const typedSize = /^([\d.]+) mm$/.exec(text)?.[1];
  const millimetres =
    typed.value['cable.size'] === undefined && typeof value === 'number' ? value * 1000 : Number(typedSize);
  const size = SIZES.find(({ choice }) => Math.abs(Number(choice) - millimetres) < 0.1);
  return (
    <label class={typed.value['cable.size'] === undefined ? 'field' : 'field changed'}>
      <span>{words.chain}</span>
      <select
        disabled={locked}
        value={size?.choice ?? ''}
        onChange={({ currentTarget: { value: choice } }) => put('cable.size', choice && `${choice} mm`)}
      >
        <option value="">{words.chainUntold}</option>
        {SIZES.map(({ choice, name }) => (
          <option key={choice} value={choice}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A card that was taken from the data, before it is written. */
function Card() {
  const card = typed.value['watch.deviation'];
  if (typeof card !== 'object') return null;
  return (
    <p class="changed">
      {words.card}:{' '}
      {card.map(([heading, off]) => `${bearing(heading)} ${off > 0 ? '+' : ''}${off}°`).join(', ')}
    </p>
  );
}
