import { useState } from 'preact/hooks';
import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { age, bearing, clock, joined, speed, typed } from '../../format.ts';
import { now } from '../../live.ts';
import { tideWords as words } from '../../words/tide.ts';
import { Told, useAsking } from '../asking.tsx';
import { Field } from '../field.tsx';
import { minutesTyped, momentOf } from './when.ts';

/** The stream now, when it turns next, and what she will do then. */
export function Stream({ state: { streamTurn, watch } }: { state: State }) {
  const stream = watch.lie?.stream;
  return (
    <section>
      <h2>{words.stream}</h2>
      {stream ? (
        <p class="strong">
          {words.streamNow(joined(speed(stream.drift.value, true)), bearing(stream.set.value))}
        </p>
      ) : (
        <p class="note">{watch.lie?.streamUnknown ?? words.notMeasured}</p>
      )}
      {streamTurn?.at && streamTurn.from && (
        <p>
          {words.slackAt(clock(streamTurn.at.value), age(streamTurn.at.sigma))},{' '}
          {words.slackFrom[streamTurn.from]}
          {streamTurn.duration !== undefined && `; ${words.duration(age(streamTurn.duration))}`}.
        </p>
      )}
      {streamTurn?.report && <p>{streamTurn.report}</p>}
      {streamTurn?.unknown && <p class="note">{streamTurn.unknown}</p>}
      {streamTurn && streamTurn.record.samples > 1 && (
        <p class="note">{words.measured(streamTurn.record.samples, age(streamTurn.record.span))}</p>
      )}
    </section>
  );
}

export function TellSlack() {
  const asking = useAsking();
  const [time, setTime] = useState('');
  const [sets, setSets] = useState('');
  const submit = async (event: Event) => {
    event.preventDefault();
    const minutes = minutesTyped(time);
    if (minutes === undefined) return asking.say(words.needsSlack);
    const today = momentOf(minutes, 0, now.peek());
    const at = today > now.peek() ? today : momentOf(minutes, 1, now.peek());
    const setsAfterwards = typed(sets);
    await asking.run(() =>
      commands.tellSlacks([{ at, ...(setsAfterwards === undefined ? {} : { setsAfterwards }) }]),
    );
  };
  return (
    <form onSubmit={submit} noValidate>
      <h3>{words.slacks}</h3>
      <div class="fields">
        <Field text label={words.slackTime} value={time} onChange={setTime} />
        <Field label={words.slackSets} value={sets} onChange={setSets} />
      </div>
      <button type="submit" disabled={asking.busy}>
        {words.saveSlack}
      </button>
      <button type="button" disabled={asking.busy} onClick={() => asking.run(commands.forgetSlacks)}>
        {words.forgetSlacks}
      </button>
      <Told asking={asking} done={words.saved} />
    </form>
  );
}
