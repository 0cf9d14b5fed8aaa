import * as commands from '../commands.ts';
import { words } from '../words.ts';
import { Told, useAsking } from './asking.tsx';

/** In place of the dominant figure while there is no mark: the one thing to do. */
export function LetGo() {
  const asking = useAsking();
  return (
    <section class="let-go">
      <button
        type="button"
        class="primary"
        disabled={asking.busy}
        onClick={() => asking.run(() => commands.mark({}))}
      >
        {words.mark.letGo}
      </button>
      <p class="note">{words.mark.letGoHint}</p>
      <Told asking={asking} />
    </section>
  );
}
