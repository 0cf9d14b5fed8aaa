import type { ConfigChange, ConfigTold } from '../../../shared/config.ts';
import { setupWords as words } from '../../words/setup.ts';
import { LookOnly, Told, useAsking } from '../asking.tsx';
import { drop, see, tried, typed, write, written } from './draft.ts';

/** First what it will do and when, then the file is written. */
export function Change({ config, locked }: { config: ConfigTold; locked: boolean }) {
  const asking = useAsking();
  const count = Object.keys(typed.value).length;
  const changes = tried.value;
  return (
    <section class="change">
      <h2>{words.change}</h2>
      {config.file && <p class="note">{words.fileIs(config.file)}</p>}
      {config.why ? <p class="care">{config.why}</p> : <LookOnly />}
      {count === 0 && !written.value && !config.why && <p class="note">{words.nothing}</p>}
      {changes && <Changes changes={changes} none={words.same} />}
      {count > 0 && (
        <div class="buttons">
          {changes === undefined ? (
            <button
              type="button"
              class="primary"
              disabled={locked || asking.busy}
              onClick={() => asking.run(see)}
            >
              {words.see}
            </button>
          ) : (
            <button
              type="button"
              class="primary"
              disabled={locked || asking.busy}
              onClick={() => asking.run(write)}
            >
              {words.write}
            </button>
          )}
          <button type="button" onClick={drop}>
            {words.drop}
          </button>
        </div>
      )}
      <Told asking={asking} {...(written.value && { done: words.written })} />
      {config.waiting.length > 0 && (
        <>
          <h3>{words.waiting}</h3>
          <Changes changes={config.waiting} none="" />
        </>
      )}
      {config.instruments.length > 0 && (
        <p class="note">
          {words.listed}: {config.instruments.map(({ id, says }) => `${id} (${says})`).join('; ')}.{' '}
          {words.byHand}
        </p>
      )}
    </section>
  );
}

function Changes({ changes, none }: { changes: ConfigChange[]; none: string }) {
  if (changes.length === 0) return <p>{none}</p>;
  return (
    <ul class="changes">
      {changes.map(({ key, from, to, does, when }) => (
        <li key={key}>
          <strong>{words.fromTo(labelOf(key), from ?? words.unset, to ?? words.unset)}</strong>
          <span class="when">{words.times[when]}</span>
          <p>{does}</p>
        </li>
      ))}
    </ul>
  );
}

const labels: Record<string, { label: string }> = words.fields;
const labelOf = (key: string): string => (Object.hasOwn(labels, key) ? labels[key]!.label : key);
