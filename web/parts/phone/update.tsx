import { takeOver, updateReady } from '../../phone/update.ts';
import { phoneWords as words } from '../../words/phone.ts';

/** A newer version of the pages is there; taken over by a tap only. */
export function UpdateNote() {
  if (!updateReady.value) return null;
  return (
    <section class="strip" aria-label={words.takeOver}>
      <p>{words.update}</p>
      <button type="button" onClick={takeOver}>
        {words.takeOver}
      </button>
    </section>
  );
}
