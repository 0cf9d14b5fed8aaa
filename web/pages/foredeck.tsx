import { useEffect } from 'preact/hooks';
import type { State } from '../../shared/state.ts';
import * as commands from '../commands.ts';
import { mayCommand, shown } from '../live.ts';
import type { Page } from '../pages.ts';
import { Told as Answer, useAsking } from '../parts/asking.tsx';
import { useAwake } from '../parts/foredeck/awake.ts';
import { Compass } from '../parts/foredeck/compass.tsx';
import { HelmLink } from '../parts/foredeck/helmLink.tsx';
import { Idle } from '../parts/foredeck/idle.tsx';
import { OutRow } from '../parts/foredeck/outRow.tsx';
import { forgetOthers, send } from '../parts/foredeck/sending.ts';
import { Stop } from '../parts/foredeck/stop.tsx';
import { Target } from '../parts/foredeck/target.tsx';
import { Told } from '../parts/foredeck/told.tsx';
import { Hold } from '../parts/hold.tsx';
import { foredeckWords as words } from '../words/foredeck.ts';

/** For wet hands and a windlass remote: everything at once, nothing scrolls, and STOP is the whole bottom edge. */
function Foredeck() {
  useAwake();
  const state = shown.value;
  return (
    <main class="foredeck">
      <h1 class="unseen">{words.title}</h1>
      <Told />
      {state && (state.weigh ? <Signals state={state} weigh={state.weigh} /> : <Idle state={state} />)}
    </main>
  );
}

function Signals({ state, weigh }: { state: State; weigh: NonNullable<State['weigh']> }) {
  const { since } = weigh;
  useEffect(() => forgetOthers(since), [since]);
  return (
    <>
      <Compass weigh={weigh} />
      <div class="signals">
        <Target signal="ahead" />
        <Target signal="neutral" />
        <Target signal="astern" />
        <Target signal="up-and-down" />
        <Target signal="heaving" />
        <Target signal="holding" />
        <Target signal="snubbed" />
        <Aweigh told={weigh.brokenOut?.from === 'foredeck'} />
        <OutRow weigh={weigh} cable={state.cable} />
      </div>
      <Stop />
    </>
  );
}

/** Guarded by a hold: first the word to the helm; once that is given, the end of the anchorage. */
function Aweigh({ told }: { told: boolean }) {
  const asking = useAsking();
  return (
    <div class="guarded">
      <Hold
        disabled={!mayCommand.value || asking.busy}
        onHeld={() => (told ? void asking.run(commands.aweigh) : void send('aweigh'))}
      >
        {told ? words.closeMark : words.signals.aweigh}
      </Hold>
      {asking.trouble && <Answer asking={asking} />}
    </div>
  );
}

export const foredeckPage: Page = {
  id: 'foredeck',
  path: '/foredeck',
  title: words.title,
  View: Foredeck,
  whole: HelmLink,
};
