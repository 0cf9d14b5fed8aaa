import { useMemo, useRef } from 'preact/hooks';
import { turn } from '../../../shared/quantities/angle.ts';
import { FOOT } from '../../../shared/quantities/units.ts';
import type { State } from '../../../shared/state.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import { joined, length, speed, spread } from '../../format.ts';
import { track } from '../../live.ts';
import { lengthUnit } from '../../prefs.ts';
import { words } from '../../words.ts';
import { BoatOnPlan } from './boat.tsx';
import { useFinger } from './finger.ts';
import { centreOf, type Frame, frameOf, neededReach, steadyReach } from './frame.ts';
import { NorthArrow, ScaleBar, StreamArrow, WindArrow } from './glyphs.tsx';
import { Ground } from './ground.tsx';
import { Neighbours } from './neighbours.tsx';
import { Sectors } from './sectors.tsx';
import { useSize } from './size.ts';
import { Soundings } from './soundings.tsx';
import { SweptTrack } from './sweptTrack.tsx';
import { TurnAhead } from './turnAhead.tsx';
import { Zoom, zoom } from './zoom.tsx';

interface Props {
  state: State;
  /** Where she has been; left out: as the boat tells it now. */
  points?: readonly TrackPoint[];
  /** In place of how sure her place is. */
  note?: string | undefined;
}

/** The anchorage from above, north up. What is known is drawn sharp, what is estimated soft, what is unknown not at all. */
export function Plan({ state, points, note }: Props) {
  const holder = useRef<HTMLElement>(null);
  const size = useSize(holder);
  const reach = useRef<number | undefined>(undefined);
  const needed = neededReach(state);
  reach.current = steadyReach(reach.current, needed);
  const centre = centreOf(state);
  const frame = useMemo(
    () => size && centre && frameOf(size, centre, reach.current! * zoom.value),
    [size, centre?.lat, centre?.lon, reach.current, zoom.value],
  );
  const finger = useFinger(frame, state.watch.mark);
  const { distance, circle } = state.watch;
  const title = words.plan.title(
    distance && joined(length(distance.value)),
    circle && joined(length(circle.radius)),
  );
  return (
    <figure class="plan" ref={holder}>
      {frame && (
        <svg
          role="img"
          aria-label={title}
          {...finger}
          viewBox={`${-frame.width / 2} ${-frame.height / 2} ${frame.width} ${frame.height}`}
        >
          <Softness />
          <Ground state={state} frame={frame} />
          <Soundings state={state} frame={frame} />
          <Sectors state={state} frame={frame} />
          <Neighbours state={state} frame={frame} />
          <TurnAhead state={state} frame={frame} />
          <SweptTrack points={points ?? track.value} frame={frame} />
          <BoatOnPlan state={state} frame={frame} />
          <Flows state={state} frame={frame} />
          <NorthArrow frame={frame} label={words.plan.north} />
          <ScaleBar frame={frame} unit={lengthUnit.value === 'ft' ? FOOT : 1} name={lengthUnit.value} />
        </svg>
      )}
      <figcaption>{note ?? caption(state)}</figcaption>
      <Zoom />
    </figure>
  );
}

function caption({ vessel }: State): string {
  if (!vessel.roller) return words.plan.placeUnknown;
  if (!vessel.heading) return words.plan.headingUnknown;
  return words.plan.place(spread(vessel.roller.sigma));
}

/** Degrees that wind and stream arrows keep apart on the rim, so that neither covers the other. */
const APART = 30;

function Flows({ state, frame }: { state: State; frame: Frame }) {
  const wind = state.vessel.windGround?.value;
  const told = state.vessel.stream?.value;
  const found = state.watch.lie?.stream;
  const set = told?.set ?? found?.set.value;
  const drift = told?.drift ?? found?.drift.value;
  const streamFrom = set === undefined ? undefined : apart(set + 180, wind?.from);
  return (
    <>
      {wind && <WindArrow frame={frame} from={wind.from} label={joined(speed(wind.speed))} />}
      {streamFrom !== undefined && drift !== undefined && (
        <StreamArrow frame={frame} from={streamFrom} label={joined(speed(drift, true))} soft={!told} />
      )}
    </>
  );
}

function apart(from: number, other: number | undefined): number {
  if (other === undefined) return from;
  const between = turn(other, from);
  if (Math.abs(between) >= APART) return from;
  return other + (between < 0 ? -APART : APART);
}

/** Fills that are dense in the middle and end nowhere in particular, as an uncertain place does. */
function Softness() {
  return (
    <defs>
      {['place', 'mark', 'estimate'].map((name) => (
        <radialGradient key={name} id={`soft-${name}`} class={`softness-${name}`}>
          <stop offset="0" stop-opacity="0.42" />
          <stop offset="0.6" stop-opacity="0.26" />
          <stop offset="1" stop-opacity="0" />
        </radialGradient>
      ))}
    </defs>
  );
}
