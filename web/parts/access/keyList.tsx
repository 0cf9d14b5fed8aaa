import type { KeyView } from '../../../shared/messages.ts';
import { clock, date } from '../../format.ts';
import { accessWords } from '../../words/access.ts';
import { Told, useAsking } from '../asking.tsx';
import { Hold } from '../hold.tsx';
import { keys, takeAway } from './calls.ts';

const words = accessWords.list;

/** Who has a key, and how it is taken away. */
export function KeyList() {
  const told = keys.value;
  if (!told) return null;
  return (
    <section>
      <h2>{words.title}</h2>
      {told.keys.length === 0 && <p>{words.none}</p>}
      <ul class="key-list">
        {told.keys.map((key) => (
          <Key key={key.id} held={key} own={key.id === told.own} />
        ))}
      </ul>
    </section>
  );
}

function Key({ held, own }: { held: KeyView; own: boolean }) {
  const asking = useAsking();
  const { id, name, role, lastUsed } = held;
  return (
    <li>
      <p>
        <strong>{name}</strong> {accessWords.may[role]}
        {own && ` · ${words.own}`}
      </p>
      <p class="note">
        {lastUsed === undefined ? words.neverUsed : words.lastUsed(`${date(lastUsed)}, ${clock(lastUsed)}`)}
      </p>
      {!own && (
        <Hold disabled={asking.busy} onHeld={() => asking.run(() => takeAway(id))}>
          {words.takeAway}
        </Hold>
      )}
      <Told asking={asking} />
    </li>
  );
}
