import type { PageView, State } from '../../../shared/state.ts';
import { age } from '../../format.ts';
import { now } from '../../live.ts';
import { words } from '../../words.ts';

/** Seconds without a pulse from a page's own script after which it cannot be counted on to sound. */
const QUIET = 6;

/** The screens that are open somewhere on board, and which of them could wake somebody. */
export function OpenPages({ state }: { state: State }) {
  return (
    <section>
      <h2>{words.instruments.pages}</h2>
      {state.pages.length === 0 && <p>{words.instruments.noPages}</p>}
      <ul class="open-pages">
        {state.pages.map((page) => (
          <li key={page.id}>
            <strong>{page.name || page.page}</strong> {page.page} · {condition(page)}
          </li>
        ))}
      </ul>
    </section>
  );
}

function condition(page: PageView): string {
  const silence = now.value - page.lastAt;
  const { instruments } = words;
  if (silence > QUIET) return instruments.silentFor(age(silence));
  return [
    page.visible ? instruments.visible : instruments.hidden,
    page.sound ? instruments.audible : instruments.silent,
  ].join(' · ');
}
