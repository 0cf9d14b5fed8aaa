import { shown } from '../live.ts';
import type { Page } from '../pages.ts';
import { LookOnly } from '../parts/asking.tsx';
import { Left } from '../parts/check/left.tsx';
import { Distance } from '../parts/distance.tsx';
import { Figures } from '../parts/figures.tsx';
import { late } from '../parts/late.tsx';
import { LetGo, MarkPanel } from '../parts/markPanel.tsx';
import { Plan } from '../parts/plan/plan.tsx';
import { Report } from '../parts/report.tsx';
import { WatchPanel } from '../parts/watchPanel.tsx';
import { WeighPanel } from '../parts/weighPanel.tsx';
import { words } from '../words.ts';

/** Below what one looks at first. */
const AroundPanel = late(async () => (await import('../parts/around/aroundPanel.tsx')).AroundPanel);

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
          <Left state={state} />
          <Plan state={state} />
          <Figures state={state} />
          <div class="panels">
            <LookOnly />
            <MarkPanel state={state} />
            <WatchPanel state={state} />
            <AroundPanel />
            <WeighPanel state={state} />
          </div>
        </>
      )}
    </main>
  );
}

export const watchPage: Page = { id: 'watch', path: '/', title: words.pages.watch, View: Watch };
