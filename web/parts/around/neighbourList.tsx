import type { NeighbourView } from '../../../shared/neighbours/view.ts';
import type { State } from '../../../shared/state.ts';
import * as commands from '../../commands.ts';
import { age, bearing, joined, length } from '../../format.ts';
import { aroundWords as words } from '../../words/around.ts';
import { useAsking } from '../asking.tsx';

/** As many as a person can look at. */
const LISTED = 12;

export function NeighbourList({ state: { neighbours, at } }: { state: State }) {
  if (neighbours.length === 0) return <p class="note">{words.none}</p>;
  return (
    <>
      <ul class="neighbour-list">
        {neighbours.slice(0, LISTED).map((view) => (
          <Row key={view.id} view={view} at={at} />
        ))}
      </ul>
      <p class="note">{words.care}</p>
    </>
  );
}

function Row({ view, at }: { view: NeighbourView; at: number }) {
  const asking = useAsking();
  const { distance, bearing: bears, id, from } = view;
  return (
    <li class={view.dragging || view.overOurAnchor ? 'grave' : undefined}>
      <p class="who">
        <strong>{words.label(view)}</strong> <span>{words.activity(view)}</span>
        {view.activityFrom === 'moves' && <span class="note"> ({words.judged})</span>}
      </p>
      <p>
        {distance !== undefined && `${joined(length(Math.max(0, distance)))} ${words.clear}`}
        {bears !== undefined && ` · ${words.bears(bearing(bears))}`}
        {view.stale && ` · ${words.stale(age(at - view.at))}`}
      </p>
      {details(view).map((text) => (
        <p key={text} class="note">
          {text}
        </p>
      ))}
      {from === 'hand' && (
        <button
          type="button"
          disabled={asking.busy}
          onClick={() => asking.run(() => commands.takeAwayNeighbour(id))}
        >
          {words.takeAway}
        </button>
      )}
    </li>
  );
}

function details({ dragging, overOurAnchor, passing, together, outOfStep, circle }: NeighbourView): string[] {
  const metres = (m: number) => joined(length(m));
  const lines: (string | false | undefined)[] = [
    dragging && words.drags(metres(dragging.beyond)),
    overOurAnchor && words.over,
    passing && words.passes(metres(Math.max(0, passing.distance)), age(passing.in)),
    together !== undefined && words.together(metres(Math.max(0, together))),
    outOfStep !== undefined &&
      (outOfStep < 0 ? words.overlap(metres(-outOfStep)) : words.outOfStep(metres(outOfStep))),
    circle && words.veered(metres(circle.veered), circle.veeredFrom === 'told'),
  ];
  return lines.filter((line) => typeof line === 'string');
}
