import type { State } from '../../shared/state.ts';
import * as commands from '../commands.ts';
import { clock } from '../format.ts';
import { follow } from '../router.ts';
import { checkWords } from '../words/check.ts';
import { words } from '../words.ts';
import { Told, useAsking } from './asking.tsx';
import { Panel } from './panel.tsx';

export function WeighPanel({ state }: { state: State }) {
  const asking = useAsking();
  const weighing = state.watch.phase === 'weighing';
  return (
    <Panel
      title={words.weigh.title}
      summary={
        weighing && state.weigh
          ? `${words.weigh.on} ${words.alerts.since(clock(state.weigh.since))}`
          : undefined
      }
    >
      <p class="care">{words.weigh.caution}</p>
      {state.check && !weighing && (
        <nav>
          <a href="/check" onClick={follow}>
            {checkWords.title}
          </a>
        </nav>
      )}
      <button
        type="button"
        disabled={asking.busy}
        onClick={() => asking.run(weighing ? commands.stopWeighing : commands.startWeighing)}
      >
        {weighing ? words.weigh.stop : words.weigh.start}
      </button>
      <Told asking={asking} />
    </Panel>
  );
}
