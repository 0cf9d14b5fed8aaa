import type { InputView, State } from '../../../shared/state.ts';
import { age } from '../../format.ts';
import { now } from '../../live.ts';
import { words } from '../../words.ts';

/** Each input with what it brought and what of it was refused, so that a bad cable shows before it matters. */
export function Inputs({ state }: { state: State }) {
  return (
    <section>
      <h2>{words.instruments.inputs}</h2>
      {state.inputs.length === 0 && <p>{words.instruments.noInputs}</p>}
      {state.inputs.map((input) => (
        <Input key={input.id} input={input} />
      ))}
    </section>
  );
}

const count = (n: number) => n.toLocaleString('en-GB');

function Input({ input }: { input: InputView }) {
  const { checksum, malformed, unknown } = input.rejected;
  const { instruments } = words;
  return (
    <article class={input.up ? 'input' : 'input down'}>
      <h3>
        {input.id} <span class="state">{input.up ? instruments.up : instruments.down}</span>
      </h3>
      <p class="note">
        {input.detail && `${input.detail} · `}
        {input.lastAt === undefined
          ? instruments.neverGood
          : instruments.lastGood(age(now.value - input.lastAt))}
      </p>
      <dl class="counts">
        <Count label={instruments.sentences} value={input.sentences} />
        <Count label={`${instruments.refused} ${instruments.checksum}`} value={checksum} />
        <Count label={`${instruments.refused}, ${instruments.malformed}`} value={malformed} />
        <Count label={`${instruments.refused}, ${instruments.unknown}`} value={unknown} />
      </dl>
      {input.lastRefusal && (
        <p class="refusal">
          {instruments.lastRefusal}: <code>{input.lastRefusal}</code>
        </p>
      )}
    </article>
  );
}

function Count({ label, value }: { label: string; value: number }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{count(value)}</dd>
    </div>
  );
}
