import type { Cable } from '../../../shared/settings.ts';
import { words } from '../../words.ts';
import { SIZES } from './chain.ts';
import { chooseChain, draft, type Faults } from './draft.ts';
import type { Key } from './fields.ts';
import { Stepper } from './stepper.tsx';

const BEFORE_CHAIN: readonly Key[] = ['depth', 'wind', 'riseToHigh', 'fallToLow', 'stream', 'room'];
const AFTER_CHAIN: readonly Key[] = ['chainLength', 'ropeLength', 'veer', 'slope'];

export function Inputs({ cable, faults }: { cable: Cable; faults: Faults }) {
  const all = (keys: readonly Key[]) =>
    keys.map((key) => <Stepper key={key} name={key} fault={faults[key]} />);
  return (
    <section class="planner-inputs">
      <h2>{words.planner.inputs}</h2>
      <div class="steppers">
        {all(BEFORE_CHAIN)}
        <ChainField cable={cable} />
        {draft.value.chain === 'mass' && all(['massPerMetre'])}
        {all(AFTER_CHAIN)}
      </div>
    </section>
  );
}

const figure = (massPerMetre: number): string => massPerMetre.toFixed(2).replace(/0$/, '');

function ChainField({ cable }: { cable: Cable }) {
  return (
    <div class="stepper">
      <label for="chain">{words.planner.chain}</label>
      <select
        id="chain"
        value={draft.value.chain}
        onChange={(event) => chooseChain(event.currentTarget.value)}
      >
        <option value="boat">{words.planner.ownChain(figure(cable.massPerMetre))}</option>
        {SIZES.map(({ choice, name }) => (
          <option key={choice} value={choice}>
            {name}
          </option>
        ))}
        <option value="mass">{words.planner.byMass}</option>
      </select>
    </div>
  );
}
