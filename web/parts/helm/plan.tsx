import { useRef } from 'preact/hooks';
import { direction, turn } from '../../../shared/quantities/angle.ts';
import type { State } from '../../../shared/state.ts';
import { joined, length, speed } from '../../format.ts';
import { type Point, unit } from '../../projection.ts';
import { helmWords as words } from '../../words/helm.ts';
import { HullDrawing } from '../plan/hull.tsx';
import { useSize } from '../plan/size.ts';
import { steeringOf } from './steer.ts';

/** Share of the height above the roller: most of what matters lies ahead. */
const AHEAD = 0.64;
const RIM = 44;

/**
 * From above, bow up, the roller in one place; it comes nearer as the distance shrinks. Anchor, lead and course are drawn as broad as
 * they are unsure. Without a heading north is up, and nothing is drawn that is counted from the bow.
 */
export function HelmPlan({ state }: { state: State }) {
  const holder = useRef<HTMLElement>(null);
  const size = useSize(holder);
  const reach = useRef<number | undefined>(undefined);
  const { weigh, vessel } = state;
  const { distance } = weigh!;
  reach.current = steady(
    reach.current,
    weigh!.guidance?.scale ?? (distance ? 1.3 * distance.value : undefined),
  );
  const heading = vessel.heading?.value;
  const away = distance && joined(length(distance.value));
  return (
    <figure class="helm-plan" ref={holder}>
      {size && size.height > 60 && (
        <svg
          role="img"
          aria-label={heading === undefined ? words.planNorth(away) : words.plan(away)}
          viewBox={`${-size.width / 2} ${-size.height * AHEAD} ${size.width} ${size.height}`}
        >
          <Drawing
            state={state}
            view={{ ...size, scale: scaleFor(state, size, reach.current ?? 40), up: heading ?? 0 }}
          />
        </svg>
      )}
      <figcaption>
        {[!distance && words.placeUnknown, heading === undefined && words.northUp].filter(Boolean).join('; ')}
      </figcaption>
    </figure>
  );
}

/** Farther at once, nearer only when it is worth it: a distance that trembles must not make the picture tremble. */
function steady(before: number | undefined, needed: number | undefined): number | undefined {
  if (before === undefined || needed === undefined) return needed ?? before;
  return needed > before || needed < 0.8 * before ? needed : before;
}

/** Pixels in a metre, so that the anchor is on the picture wherever it lies. */
function scaleFor({ weigh, vessel }: State, size: { width: number; height: number }, reach: number): number {
  const ahead = (size.height * AHEAD - RIM) / reach;
  const { distance, bearing } = weigh!;
  if (!distance || bearing === undefined) return ahead;
  const way = unit(bearing - (vessel.heading?.value ?? 0));
  const across = (size.width / 2 - RIM) / Math.max(1, Math.abs(way.x) * distance.value);
  const astern = (size.height * (1 - AHEAD) - RIM / 2) / Math.max(1, way.y * distance.value);
  return Math.min(ahead, across, astern);
}

interface View {
  width: number;
  height: number;
  scale: number;
  /** The direction that is up, degrees true. */
  up: number;
}

function Drawing({ state, view }: { state: State; view: View }) {
  const { weigh, vessel, boat } = state;
  const { distance, bearing, taking, brokenOut } = weigh!;
  // Off the bottom the cable leads wherever it hangs.
  const lead = brokenOut ? undefined : weigh!.lead;
  const steering = steeringOf(state);
  const heading = vessel.heading;
  const reach = Math.hypot(view.width, view.height);
  const course = steering && steering.turn !== undefined ? steering.course - view.up : undefined;
  const anchor =
    distance && bearing !== undefined && at(unit(bearing - view.up), distance.value * view.scale);
  const cable = Math.min((distance?.value ?? 8) * view.scale, reach);
  return (
    <>
      {course !== undefined && (
        <g class="course">
          <path class="spread" d={fan(course, Math.min(60, 2 * (steering!.sigma ?? 0)), reach)} />
          <path d={ray(course, reach)} />
        </g>
      )}
      {lead && heading && (
        <>
          <path class="foul-limit" d={`${ray(-lead.limit, 90)}${ray(lead.limit, 90)}`} />
          <path class="lead-spread" d={fan(lead.angle, Math.min(90, 2 * lead.sigma), cable)} />
        </>
      )}
      {anchor && distance && (
        <g class="anchor-about">
          <ellipse
            rx={
              2 *
              view.scale *
              Math.hypot(distance.sigma, (distance.value * (heading?.sigma ?? 0) * Math.PI) / 180)
            }
            ry={2 * view.scale * distance.sigma}
            transform={`translate(${place(anchor)}) rotate(${(bearing! - view.up).toFixed(1)})`}
          />
        </g>
      )}
      {heading && <HullDrawing boat={boat} at={{ x: 0, y: 0 }} heading={0} scale={view.scale} />}
      {lead && heading ? (
        <path class="lead-line" d={ray(lead.angle, cable)} />
      ) : (
        anchor && !brokenOut && <path class="lead-line unsure" d={`M0 0L${place(anchor)}`} />
      )}
      {anchor && <Anchor at={anchor} />}
      <circle class="roller" r="4" />
      {taking && <Taking by={taking.by} toward={taking.toward - view.up} view={view} length={boat.length} />}
      <Flows state={state} view={view} />
    </>
  );
}

const at = (way: Point, r: number): Point => ({ x: way.x * r, y: way.y * r });
const place = ({ x, y }: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
const ray = (angle: number, r: number): string => `M0 0L${place(at(unit(angle), r))}`;

/** A wedge from the roller: where it may be. */
function fan(angle: number, half: number, r: number): string {
  if (half < 0.5) return '';
  const [from, to] = [at(unit(angle - half), r), at(unit(angle + half), r)];
  return `M0 0L${place(from)}A${r.toFixed(0)} ${r.toFixed(0)} 0 0 1 ${place(to)}Z`;
}

const Anchor = ({ at }: { at: Point }) => (
  <g class="anchor" transform={`translate(${place(at)})`}>
    <circle cy="-11" r="3" />
    <path d="M0 -8V12M-6 -4.5H6M-10.5 4.5C-9 10.5 -4.5 12 0 12S9 10.5 10.5 4.5M-13 7L-10.5 4.5L-7.5 6.5M13 7L10.5 4.5L7.5 6.5" />
  </g>
);

interface TakingProps {
  by: 'wind' | 'stream' | 'both';
  toward: number;
  view: View;
  length: number;
}

/** From amidships to where she is carried. */
function Taking({ by, toward, view, length: boat }: TakingProps) {
  const from = Math.min((boat / 2) * view.scale, view.height * (1 - AHEAD) - 24);
  return (
    <g
      class={`taking-arrow ${by}`}
      transform={`translate(0 ${from.toFixed(1)}) rotate(${toward.toFixed(1)})`}
    >
      <path d="M0 0V-38M-9 -28L0 -42L9 -28" />
    </g>
  );
}

/** Apparent wind as the helm feels it, held mark beside it, and the stream: at the rim they come from. */
function Flows({ state, view }: { state: State; view: View }) {
  const { vessel, watch, weigh } = state;
  const rim = Math.min(view.width / 2, view.height * AHEAD - 22) - 26;
  const wind = vessel.windApparent?.value;
  const told = vessel.stream?.value;
  const found = watch.lie?.stream;
  const set = told?.set ?? found?.set.value;
  const drift = told?.drift ?? found?.drift.value;
  const isBowUp = vessel.heading !== undefined;
  const held = isBowUp ? weigh!.held?.angle : undefined;
  return (
    <>
      {held !== undefined && (
        <g class="held-mark" transform={`rotate(${held.toFixed(1)})`}>
          <path d={`M0 ${-rim - 22}L-9 ${-rim - 6}H9Z`} />
        </g>
      )}
      {wind && isBowUp && (
        <Flow
          kind="wind"
          from={wind.angle}
          rim={rim}
          view={view}
          label={joined(speed(wind.speed))}
          d="M0 -16V15M-6 7L0 16L6 7M0 -16L8 -20M0 -10L8 -14"
        />
      )}
      {set !== undefined && drift !== undefined && (
        <Flow
          kind={told ? 'stream' : 'stream soft'}
          from={apart(turn(view.up, direction(set + 180)), isBowUp ? wind?.angle : undefined)}
          rim={rim}
          view={view}
          label={joined(speed(drift, true))}
          d="M0 -17C5 -14 5 -10 0 -7S-5 0 0 3S2 8 0 13M-6 7L0 16L6 7"
        />
      )}
    </>
  );
}

interface FlowProps {
  kind: string;
  from: number;
  rim: number;
  view: View;
  label: string;
  d: string;
}

function Flow({ kind, from, rim, view, label, d }: FlowProps) {
  const way = unit(from);
  // Wider than high, as the picture is: arrows from the side stand off the boat.
  const out = { x: way.x * Math.max(rim, view.width / 2 - 74), y: way.y * (rim - 6) };
  const below = view.height * (1 - AHEAD) - 22;
  const here = { x: out.x, y: Math.min(out.y, below) };
  const side = here.x > view.width / 2 - 70 ? -1 : 1;
  return (
    <g class={kind}>
      <g transform={`translate(${place(here)}) rotate(${from.toFixed(1)})`}>
        <path d={d} />
      </g>
      <text x={here.x + 16 * side} y={here.y} dy="0.35em" text-anchor={side > 0 ? 'start' : 'end'}>
        {label}
      </text>
    </g>
  );
}

/** Degrees that two arrows keep apart, so that neither covers the other. */
const APART = 24;

function apart(from: number, other: number | undefined): number {
  if (other === undefined) return from;
  const between = turn(other, from);
  return Math.abs(between) >= APART ? from : other + (between < 0 ? -APART : APART);
}
