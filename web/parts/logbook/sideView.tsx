import { useEffect, useState } from 'preact/hooks';
import type { Lay, Side } from '../../../shared/logbook/side.ts';
import type { State } from '../../../shared/state.ts';
import { joined, length, speed } from '../../format.ts';
import { ask } from '../../review/engine.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { words as common } from '../../words.ts';
import { Profile } from '../planner/profile.tsx';

/** The boat from the side as she lay: the same drawing as the planner's, of what was measured then. */
export function SideView({ state }: { state: State }) {
  const lay = layOf(state);
  const [drawn, setDrawn] = useState<{ key: string; side: Side | undefined; lay: Lay } | undefined>();
  const key = typeof lay === 'string' ? lay : JSON.stringify(lay);
  useEffect(() => {
    if (typeof lay === 'string') return;
    let stale = false;
    void ask({ do: 'side', lay }).answer.then(
      (side) => !stale && setDrawn({ key, side, lay }),
      () => {},
    );
    return () => {
      stale = true;
    };
  }, [key]);
  if (typeof lay === 'string') return <p class="care">{words.sideUnknown[lay]}</p>;
  if (!drawn) return null;
  // While the next is on its way the one before stands: a moment of a night is like the one before it.
  const { side, lay: of } = drawn;
  if (!side) return <p class="care">{words.sideTooFar}</p>;
  const { drawing } = common.planner;
  const deep = joined(length(of.depth, true));
  const keel = of.depth - state.boat.draft;
  const wind = state.vessel.windGround?.value;
  return (
    <figure class="planner-drawing past-side">
      <Profile
        title={words.side(joined(length(of.distance)), deep)}
        scene={{
          boat: state.boat,
          depth: { high: of.depth, now: of.depth, low: of.depth },
          slope: 0,
          cable: { high: side.cable, low: side.cable },
        }}
        labels={{
          veer: drawing.veer(joined(length(of.veered))),
          high: deep,
          now: deep,
          low: deep,
          reach: joined(length(of.distance)),
          keel:
            keel < 0
              ? drawing.aground(joined(length(-keel, true)))
              : drawing.keel(joined(length(keel, true))),
          onBottom: drawing.onBottom(joined(length(side.onBottom))),
          wind: wind ? joined(speed(wind.speed)) : common.unknown,
        }}
      />
      <figcaption>{words.sideCaption}</figcaption>
    </figure>
  );
}

/** What the drawing needs, rounded to what can be seen; or what is missing. */
function layOf({ boat, cable, vessel, watch }: State): Lay | keyof typeof words.sideUnknown {
  const { veered, distance } = watch;
  const depth = vessel.depth?.value.surface ?? vessel.depth?.value.measured;
  if (veered === undefined) return 'veered';
  if (depth === undefined) return 'depth';
  if (distance === undefined) return 'distance';
  const tenth = (value: number) => Math.round(value * 10) / 10;
  return {
    veered,
    depth: tenth(depth),
    rollerHeight: boat.roller.height,
    massPerMetre: cable.massPerMetre,
    ...(cable.length === undefined ? {} : { chainLength: cable.length }),
    distance: tenth(distance.value),
  };
}
