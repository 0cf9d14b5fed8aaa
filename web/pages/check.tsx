import { useEffect } from 'preact/hooks';
import type { State } from '../../shared/state.ts';
import type { CheckView } from '../../shared/weigh/check-view.ts';
import * as commands from '../commands.ts';
import { mayCommand, shown, trusted } from '../live.ts';
import type { Page } from '../pages.ts';
import { LookOnly, Told, useAsking } from '../parts/asking.tsx';
import { EditList } from '../parts/check/editList.tsx';
import { Left } from '../parts/check/left.tsx';
import { Measured } from '../parts/check/measured.tsx';
import { forgetOtherTicks, openItems, Ticks } from '../parts/check/ticks.tsx';
import { follow } from '../router.ts';
import { checkWords as words } from '../words/check.ts';
import { words as common } from '../words.ts';

/** What to look at before weighing: it warns, and lets people decide. */
function Check() {
  const state = shown.value;
  return (
    <main class="departure">
      <h1 class="unseen">{words.title}</h1>
      {state?.check ? (
        <Form state={state} check={state.check} />
      ) : (
        <>
          <p class="report">{words.noMark}</p>
          {state && <Left state={state} />}
        </>
      )}
    </main>
  );
}

function Form({ state, check }: { state: State; check: CheckView }) {
  const markedAt = state.watch.mark?.at;
  useEffect(() => forgetOtherTicks(markedAt), [markedAt]);
  const look = check.measured.filter((item) => item.state !== 'good').length;
  return (
    <>
      <p class="report">
        {trusted.value ? words.ready(look, openItems(check).length) : common.link.standstill}
      </p>
      <LookOnly />
      <h2>{words.measured}</h2>
      <Measured items={check.measured} />
      <h2>{words.people}</h2>
      <Ticks check={check} />
      <Begin state={state} />
      <p class="care">{words.warns}</p>
      <EditList check={check} />
    </>
  );
}

/** What comes after it: both pages of weighing are a tap away. */
function Begin({ state }: { state: State }) {
  const asking = useAsking();
  return (
    <div class="begin">
      {state.weigh ? (
        <p class="strong">{words.weighing}</p>
      ) : (
        <button
          type="button"
          class="primary"
          disabled={!mayCommand.value || asking.busy}
          onClick={() => asking.run(commands.startWeighing)}
        >
          {words.start}
        </button>
      )}
      <nav>
        <a href="/weigh" onClick={follow}>
          {words.helm}
        </a>
        <a href="/foredeck" onClick={follow}>
          {words.foredeck}
        </a>
      </nav>
      <Told asking={asking} />
    </div>
  );
}

export const checkPage: Page = { id: 'check', path: '/check', title: words.title, View: Check };
