import { shown } from '../live.ts';
import type { Page } from '../pages.ts';
import { LookOnly } from '../parts/asking.tsx';
import { Distance } from '../parts/distance.tsx';
import { Figures } from '../parts/figures.tsx';
import { LetGo, MarkPanel } from '../parts/markPanel.tsx';
import { Plan } from '../parts/plan/plan.tsx';
import { Report } from '../parts/report.tsx';
import { WatchPanel } from '../parts/watchPanel.tsx';
import { WeighPanel } from '../parts/weighPanel.tsx';
import { words } from '../words.ts';

/** The page that lies beside the bunk. */
function Watch() {
  const state = shown.value;
  return (
    <main class="watch">
      <h1 class="unseen">{words.pages.watch}</h1>
      <Report />
      {state && (
        <>
          {state.watch.mark ? <Distance state={state} /> : <LetGo />}
          <Plan state={state} />
          <Figures state={state} />
          <div class="panels">
            <LookOnly />
            <MarkPanel state={state} />
            <WatchPanel state={state} />
            <WeighPanel state={state} />
          </div>
        </>
      )}
    </main>
  );
}

export const watchPage: Page = { id: 'watch', path: '/', title: words.pages.watch, View: Watch };
