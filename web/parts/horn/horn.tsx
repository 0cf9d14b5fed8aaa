import type { OutputView } from '../../../shared/outputs.ts';
import type { State } from '../../../shared/state.ts';
import { clock } from '../../format.ts';
import { hornWords as words } from '../../words/horn.ts';
import { LookOnly, Told, useAsking } from '../asking.tsx';
import { testHorn } from './test.ts';

/** Ways out for alerts beside the pages: whether each works, when it was last proved, and the button that proves it. */
export function Horn({ state }: { state: State }) {
  const asking = useAsking();
  const outputs = state.outputs ?? [];
  return (
    <section class="horn">
      <h2>{words.title}</h2>
      <p class={outputs.length === 0 ? 'care' : 'note'}>{outputs.length === 0 ? words.none : words.about}</p>
      {outputs.map((output) => (
        <Output key={output.id} output={output} />
      ))}
      {outputs.length > 0 && (
        <>
          <LookOnly />
          <button type="button" disabled={asking.busy} onClick={() => asking.run(testHorn)}>
            {words.test}
          </button>
          <p class="note">{words.testHint}</p>
          <Told asking={asking} done={words.testDone} />
        </>
      )}
    </section>
  );
}

function Output({ output }: { output: OutputView }) {
  const { id, kind, what, lastOk, lastFailure, lastTest, failing } = output;
  return (
    <article class={failing ? 'input down' : 'input'}>
      <h3>
        {id} <span class="state">{words.states[stateOf(output)]}</span>
      </h3>
      <p class="note what">
        {words.kinds[kind]}: {what}
      </p>
      {failing && lastFailure && <p class="strong">{words.failed(clock(lastFailure.at), lastFailure.why)}</p>}
      {lastTest && <p>{words.tested(clock(lastTest.at), lastTest.by, lastTest.detail)}</p>}
      {lastOk !== undefined && <p class="note">{words.worked(clock(lastOk))}</p>}
    </article>
  );
}

function stateOf({ failing, on, lastOk }: OutputView): keyof typeof words.states {
  if (failing) return 'failing';
  if (on) return 'on';
  return lastOk === undefined ? 'untested' : 'ready';
}
