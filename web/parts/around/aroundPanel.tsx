import { shown } from '../../live.ts';
import { aroundWords as words } from '../../words/around.ts';
import { Panel } from '../panel.tsx';
import { NeighbourList } from './neighbourList.tsx';
import { SectorList } from './sectorList.tsx';
import { TellNeighbour } from './tellNeighbour.tsx';
import { WindToCome } from './windToCome.tsx';

/** Neighbours, parts not to enter, and what may come: opened when it is needed. */
export function AroundPanel() {
  const state = shown.value;
  if (!state) return null;
  const { neighbours, watch, lee } = state;
  return (
    <Panel title={words.title} summary={words.summary(neighbours.length, watch.sectors?.length ?? 0)}>
      <NeighbourList state={state} />
      <TellNeighbour />
      <SectorList state={state} />
      <WindToCome state={state} />
      {lee && (
        <section>
          <h3>{words.lee}</h3>
          <p class="note">{lee.report}</p>
        </section>
      )}
    </Panel>
  );
}
