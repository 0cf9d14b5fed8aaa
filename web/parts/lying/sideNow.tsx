import { useMemo } from 'preact/hooks';
import { type Side, side } from '../../../shared/cable/side.ts';
import type { State } from '../../../shared/state.ts';
import { clock, joined, length, speed, spread } from '../../format.ts';
import { lyingWords } from '../../words/lying.ts';
import { type Labels, Profile } from '../planner/profile.tsx';
import type { Scene } from '../planner/scene.ts';

const { side: words } = lyingWords;

/** The cable as it must hang now, to scale: what she lies on, at this depth and at the next low water. */
export function SideNow({ state }: { state: State }) {
  const told = toldOf(state);
  const isTold = typeof told !== 'string';
  // To the decimetre: a figure that moves less than can be seen is not worked out anew.
  const key = isTold ? Object.values(told).map(rounded).join() : told;
  const hangs = useMemo(() => (isTold ? side(told) : undefined), [key]);
  const why = !isTold ? told : !hangs ? words.missing.cable : tooFar(hangs, state);
  return (
    <figure class="side-now">
      <h2>{words.title}</h2>
      {isTold && hangs && why === undefined ? (
        <Drawing state={state} told={told} hangs={hangs} />
      ) : (
        <p class="side-view note none">{why}</p>
      )}
    </figure>
  );
}

const rounded = (value: number | undefined) => value?.toFixed(1);

type Told = Parameters<typeof side>[0];

/** What the fix may be wrong by, at least, m: within it a cable that is too short is drawn straight. */
const FIX = 3;

/** She does not hang on a cable from the mark: then no picture may say so. */
function tooFar({ beyond }: Side, { watch }: State): string | undefined {
  const believable = Math.max(FIX, 2 * (watch.distance?.sigma ?? 0));
  return beyond > believable ? words.missing.tooFar(joined(length(beyond))) : undefined;
}

/** A rise to low water of less than this is not drawn, m. */
const SAME_LEVEL = 0.05;

/** What the drawing is made from, or why there is none. */
function toldOf({ boat, cable, vessel, watch, tide }: State): Told | string {
  const { missing } = words;
  if (!watch.mark) return missing.mark;
  if (watch.phase === 'weighing') return missing.weighing;
  const veered = watch.veered ?? watch.cableSupposed;
  if (veered === undefined) return missing.veered;
  const depth = vessel.depth?.value.surface;
  if (depth === undefined) return missing.depth;
  if (!watch.distance) return missing.place;
  const low = tide?.least?.depth;
  return {
    veered,
    depth,
    ...(low !== undefined && low > 0 && low < depth - SAME_LEVEL && { depthLow: low }),
    rollerHeight: boat.roller.height,
    massPerMetre: cable.massPerMetre,
    ...(cable.length !== undefined && { chainLength: cable.length }),
    distance: watch.distance.value,
  };
}

function Drawing({ state, told, hangs }: { state: State; told: Told; hangs: Side }) {
  const { boat, watch, tide } = state;
  const { depth, depthLow } = told;
  const scene: Scene = {
    boat,
    depth: { high: depth, now: depth, low: depthLow ?? depth },
    slope: 0,
    cable: { high: hangs.now, low: hangs.low ?? hangs.now },
    ...(watch.cable && { holds: watch.cable.reach }),
  };
  const deep = (value: number) => joined(length(value, true));
  const labels = labelsOf(state, told, hangs);
  const notes = [
    watch.cable && words.reach(joined(length(watch.cable.reach.value)), spread(watch.cable.reach.sigma)),
    depthLow !== undefined && tide?.least && words.dashed(clock(tide.least.at)),
    !tide && words.noTide,
    watch.veered === undefined && words.isSupposed,
    hangs.beyond > 0.5 && words.beyond(joined(length(hangs.beyond))),
  ];
  return (
    <>
      <Profile
        title={words.drawing(joined(length(told.veered)), deep(depth), joined(length(told.distance)))}
        scene={scene}
        labels={labels}
      />
      <figcaption>{notes.filter(Boolean).join(' ').replace('± ', '±\u00a0')}</figcaption>
    </>
  );
}

function labelsOf(
  { boat, vessel, watch }: State,
  { veered, depth, depthLow }: Told,
  { now, onBottom }: Side,
): Labels {
  const deep = (value: number) => joined(length(value, true));
  const wind = vessel.windGround?.value.speed;
  const underKeel = (depthLow ?? depth) - boat.draft;
  const keel = depthLow === undefined ? words.keel : words.keelLow;
  const cable = watch.veered === undefined ? words.supposed : words.cable;
  return {
    veer: cable(joined(length(veered))),
    high: words.now(deep(depth)),
    now: words.now(deep(depth)),
    low: words.low(deep(depthLow ?? depth)),
    reach: words.distance(joined(length(now[0]?.out ?? 0))),
    keel: underKeel > 0 ? keel(deep(underKeel)) : words.aground(deep(-underKeel)),
    onBottom: words.onBottom(joined(length(onBottom))),
    // The arrow says what pushes her: not the wind, when she lies to the stream.
    wind: wind === undefined || watch.lie?.to === 'stream' ? undefined : joined(speed(wind)),
  };
}
