import { shown } from '../live.ts';
import type { Page } from '../pages.ts';
import { LookOnly } from '../parts/asking.tsx';
import { Left } from '../parts/check/left.tsx';
import { Distance } from '../parts/distance.tsx';
import { Figures } from '../parts/figures.tsx';
import { late } from '../parts/late.tsx';
import { LetGo } from '../parts/letGo.tsx';
import { Plan } from '../parts/plan/plan.tsx';
import { Report } from '../parts/report.tsx';
import { words } from '../words.ts';

/** Below what one looks at first: each keeps its room until it has come. */
const Offer = late(
  async () => (await import('../parts/lying/offer.tsx')).Offer,
  () => null,
);
const Lying = late(
  async () => (await import('../parts/lying/lying.tsx')).Lying,
  ({ failed }) => <div class="lying-room">{failed && words.pageNotCome}</div>,
);
const Panels = late(
  async () => (await import('../parts/panels.tsx')).Panels,
  ({ failed }) => <div class="panels-room">{failed && words.pageNotCome}</div>,
);

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
          <Offer />
          <Figures state={state} />
          <Lying />
          <div class="panels">
            <LookOnly />
            <Panels />
          </div>
        </>
      )}
    </main>
  );
}

export const watchPage: Page = { id: 'watch', path: '/', title: words.pages.watch, View: Watch };
