import type { State } from '../../shared/state.ts';
import { shown } from '../live.ts';
import { useAwake } from '../parts/foredeck/awake.ts';
import { Actions, Ending } from '../parts/helm/actions.tsx';
import { Figures } from '../parts/helm/figures.tsx';
import { Idle } from '../parts/helm/idle.tsx';
import { LastSignal } from '../parts/helm/lastSignal.tsx';
import { HelmPlan } from '../parts/helm/plan.tsx';
import { Risk } from '../parts/helm/risk.tsx';
import { Spoken } from '../parts/helm/spoken.tsx';
import { Stage } from '../parts/helm/stage.tsx';
import { SteerBlock } from '../parts/helm/steerBlock.tsx';
import { useTicks } from '../parts/helm/ticks.ts';
import { LinkBanner } from '../parts/linkBanner.tsx';
import { helmWords as words } from '../words/helm.ts';
import { words as common } from '../words.ts';

/** One look from a metre away: where to point, how far, how the cable stands, and what the foredeck has signalled. */
export function Helm() {
  useAwake();
  const state = shown.value;
  return (
    <main class="helm-page">
      <h1 class="unseen">{words.title}</h1>
      {state ? (
        state.weigh ? (
          <Weighing state={state} />
        ) : (
          <Idle state={state} />
        )
      ) : (
        <p class="report">{common.callingDetail}</p>
      )}
      <div class="link-over">
        <LinkBanner />
      </div>
    </main>
  );
}

function Weighing({ state }: { state: State }) {
  useTicks();
  return (
    <div class="helm">
      <LastSignal weigh={state.weigh!} />
      <SteerBlock state={state} />
      <div class="picture">
        <HelmPlan state={state} />
        <Stage weigh={state.weigh!} />
      </div>
      <Figures state={state} />
      <Risk weigh={state.weigh!} />
      <Actions weigh={state.weigh!} />
      <Ending />
      <Spoken />
    </div>
  );
}
