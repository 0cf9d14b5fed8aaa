import { signal } from '@preact/signals';
import * as commands from '../../commands.ts';
import { bearing, joined, length, spread } from '../../format.ts';
import { shown } from '../../live.ts';
import { lyingWords } from '../../words/lying.ts';
import { Told, useAsking } from '../asking.tsx';

const { offer: words } = lyingWords;

/** What was declined on this page: the offer for that mark comes again when it has grown by so many metres. */
const declined = signal<{ mark: number; moved: number } | undefined>(undefined);
const AGAIN = 2;

/** The anchor has dug in some way off its mark: a person says whether the mark follows. */
export function Offer() {
  const asking = useAsking();
  const watch = shown.value?.watch;
  const { offer, mark } = watch ?? {};
  if (!offer || !mark) return null;
  const no = declined.value;
  if (no?.mark === mark.at && offer.moved < no.moved + AGAIN) return null;
  return (
    <section class="offer" aria-label={words.region}>
      <p class="strong">
        {words.title(joined(length(offer.moved)), spread(offer.sigma), bearing(offer.bearing))}
      </p>
      <p class="note">{words.means}</p>
      <div class="answers">
        <button
          type="button"
          onClick={() => {
            declined.value = { mark: mark.at, moved: offer.moved };
          }}
        >
          {words.notNow}
        </button>
        <button
          type="button"
          class="primary"
          disabled={asking.busy}
          onClick={() => asking.run(() => commands.mark({ setBack: true }))}
        >
          {words.accept}
        </button>
      </div>
      <Told asking={asking} />
    </section>
  );
}
