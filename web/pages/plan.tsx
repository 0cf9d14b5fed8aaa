import { effect } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { shown, trusted } from '../live.ts';
import { draft, filled } from '../parts/planner/draft.ts';
import { PlanFigures } from '../parts/planner/figures.tsx';
import { Inputs } from '../parts/planner/inputs.tsx';
import { Lead } from '../parts/planner/lead.tsx';
import { standing } from '../parts/planner/worked.ts';
import { words } from '../words.ts';

/** Before the anchor is let go: how much cable, and what it takes of room and water. */
export function PlanPage() {
  useEffect(fillFromBoat, []);
  const state = shown.value;
  const now = standing.value;
  const faults =
    now.status === 'incomplete' ? now.faults : now.status === 'refused' ? now.refusal.faults : {};
  return (
    <main class="planner">
      <h1 class="unseen">{words.pages.plan}</h1>
      {state ? (
        <>
          <Lead standing={now} />
          <Inputs cable={state.cable} faults={faults} />
          <PlanFigures standing={now} />
        </>
      ) : (
        <p class="report">{words.callingDetail}</p>
      )}
    </main>
  );
}

/** While the page is open: what nobody has written yet comes from the boat, as soon as she knows it. */
const fillFromBoat = () =>
  effect(() => {
    if (shown.value && trusted.value) draft.value = filled(draft.peek(), shown.value);
  });
