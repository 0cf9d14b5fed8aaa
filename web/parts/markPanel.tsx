import type { State } from '../../shared/state.ts';
import * as commands from '../commands.ts';
import { clock, date, position, spread } from '../format.ts';
import { words } from '../words.ts';
import { Told, useAsking } from './asking.tsx';
import { Hold } from './hold.tsx';
import { MarkOtherwise } from './markOtherwise.tsx';
import { Panel } from './panel.tsx';

export function MarkPanel({ state }: { state: State }) {
  const asking = useAsking();
  const { mark } = state.watch;
  return (
    <Panel title={words.mark.title} summary={mark && clock(mark.at)}>
      {mark && (
        <>
          <p class="position">{position(mark.lat, mark.lon)}</p>
          <p>
            {words.mark.told(words.mark.how[mark.how], mark.by, `${clock(mark.at)}, ${date(mark.at)}`)};{' '}
            {words.mark.known(spread(mark.sigma))}
          </p>
          <div class="actions">
            <Hold disabled={asking.busy} onHeld={() => asking.run(() => commands.mark({}))}>
              {words.mark.again}
            </Hold>
            <Hold disabled={asking.busy} onHeld={() => asking.run(commands.aweigh)}>
              {words.mark.aweigh}
            </Hold>
          </div>
          <p class="note">{words.mark.aweighHint}</p>
        </>
      )}
      <Told asking={asking} />
      <MarkOtherwise />
    </Panel>
  );
}
