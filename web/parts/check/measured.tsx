import type { CheckItem } from '../../../shared/weigh/check-view.ts';
import { checkWords as words } from '../../words/check.ts';
import { tied } from '../../words.ts';

/** What hawse measures, each with a sign that differs in shape: a tick, a triangle, a question mark. */
export function Measured({ items }: { items: readonly CheckItem[] }) {
  return (
    <ul class="conditions">
      {items.map(({ item, state, text }) => (
        <li key={item} class={state}>
          <Sign state={state} />
          <span>
            <span class="unseen">
              {words.quantities[item]}, {words.states[state]}:{' '}
            </span>
            {tied(text)}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Sign({ state }: { state: CheckItem['state'] }) {
  return (
    <svg class="sign" viewBox="0 0 24 24" aria-hidden="true">
      {state === 'good' && <path d="M4 13L10 19L20 6" />}
      {state === 'look' && (
        <>
          <path d="M12 2.5L22.5 21H1.5Z" class="filled" />
          <path d="M12 9V14.5M12 18V18.1" class="on" />
        </>
      )}
      {state === 'unknown' && <path d="M8 8.5a4 4 0 1 1 5.5 3.7C12.3 12.8 12 13.6 12 15M12 19.5V19.6" />}
    </svg>
  );
}
