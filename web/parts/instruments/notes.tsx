import type { State } from '../../../shared/state.ts';
import { clockWithSeconds } from '../../format.ts';
import { told } from '../../told.ts';
import { words } from '../../words.ts';

/** What a watch-keeper would have written down: changes of source, inputs that came and went. Newest first. */
export function Notes({ state }: { state: State }) {
  return (
    <section>
      <h2>{words.instruments.notes}</h2>
      {state.notes.length === 0 && <p>{words.instruments.noNotes}</p>}
      <ol class="notes">
        {state.notes.toReversed().map((note) => (
          <li key={`${note.at} ${note.text}`}>
            <time>{clockWithSeconds(note.at)}</time> {told(note.text)}
          </li>
        ))}
      </ol>
    </section>
  );
}
