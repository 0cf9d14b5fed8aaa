import { useEffect } from 'preact/hooks';
import type { State } from '../../shared/state.ts';
import { mayCommand, shown, trusted } from '../live.ts';
import { Change } from '../parts/setup/change.tsx';
import { Compare, offersOf } from '../parts/setup/compare.tsx';
import { config, load, trouble } from '../parts/setup/draft.ts';
import { Duties, missingOf } from '../parts/setup/duties.tsx';
import { Figures } from '../parts/setup/figures.tsx';
import { follow } from '../router.ts';
import { setupWords as words } from '../words/setup.ts';
import { words as common } from '../words.ts';

/** What the data say changes slowly. */
const AGAIN_MS = 20_000;

/** The first hour aboard: what is heard, what the figures mean, and whether the data agree with them. */
export function SetupPage() {
  useEffect(() => {
    void load();
    const timer = setInterval(() => void load(), AGAIN_MS);
    return () => clearInterval(timer);
  }, []);
  const state = shown.value;
  const told = config.value;
  const locked = !mayCommand.value || told === undefined || told.why !== undefined;
  return (
    <main class="setup">
      <h1 class="unseen">{words.title}</h1>
      {state && <p class="report">{report(state)}</p>}
      {trouble.value && <p class="trouble">{trouble.value}</p>}
      {state && <Duties state={state} />}
      {state && told && (
        <>
          <Compare fitting={told.fitting} locked={locked} />
          <Figures state={state} locked={locked} />
          <Change config={told} locked={locked} />
        </>
      )}
      <section>
        <h2>{words.other}</h2>
        <p class="onward">
          <a href="/instruments" onClick={follow}>
            {words.horn}
          </a>
          <a href="/phones" onClick={follow}>
            {words.phones}
          </a>
          <a href="/phones" onClick={follow}>
            {words.access}
          </a>
        </p>
      </section>
    </main>
  );
}

function report(state: State): string {
  if (!trusted.value) return common.link.standstill;
  const missing = missingOf(state).map((duty) => words.duty[duty].name.toLowerCase());
  const offers = config.value ? offersOf(config.value.fitting) : 0;
  return [
    missing.length > 0 ? words.missing(missing.join(', ')) : words.allHeard,
    offers > 0 && words.lookUp(offers),
  ]
    .filter(Boolean)
    .join(' ');
}
