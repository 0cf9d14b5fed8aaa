import { shown } from '../live.ts';
import type { Page } from '../pages.ts';
import { Horn } from '../parts/horn/horn.tsx';
import { Inputs } from '../parts/instruments/inputs.tsx';
import { Notes } from '../parts/instruments/notes.tsx';
import { OpenPages } from '../parts/instruments/openPages.tsx';
import { Sources } from '../parts/instruments/sources.tsx';
import { Origin } from '../parts/origin.tsx';
import { Report } from '../parts/report.tsx';
import { words } from '../words.ts';

/** What comes in, what is refused, and where each figure comes from. */
function Instruments() {
  const state = shown.value;
  return (
    <main class="instruments">
      <h1 class="unseen">{words.pages.instruments}</h1>
      <Report />
      {state && (
        <>
          <Inputs state={state} />
          <Sources state={state} />
          <Horn state={state} />
          <Notes state={state} />
          <OpenPages state={state} />
        </>
      )}
      <Origin />
    </main>
  );
}

export const instrumentsPage: Page = {
  id: 'instruments',
  path: '/instruments',
  title: words.pages.instruments,
  View: Instruments,
};
