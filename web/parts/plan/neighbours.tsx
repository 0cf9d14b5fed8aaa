import { memo } from 'preact/compat';
import type { NeighbourView } from '../../../shared/neighbours/view.ts';
import type { State } from '../../../shared/state.ts';
import { joined, length } from '../../format.ts';
import { unit } from '../../projection.ts';
import { aroundWords } from '../../words/around.ts';
import type { Frame } from './frame.ts';

/** So many of the nearest carry their names, and only hulls longer than so many pixels are drawn as hulls. */
const NAMED = 6;
const SMALLEST_HULL = 7;
/** Beyond the edge by more than this nothing of her can be seen, pixels. */
const BEYOND = 60;

/** Vessels nearby: hull to scale as she tells it, circle of her swing, where she goes. Assumed is dotted, stale is open and fades. */
export function Neighbours({ state: { neighbours }, frame }: { state: State; frame: Frame }) {
  const within = neighbours.filter((view) => isOnPlan(view, frame));
  return (
    <g class="neighbours">
      {within.map((view) => (
        <Swing key={view.id} view={view} frame={frame} />
      ))}
      {within.map((view, index) => (
        <Vessel key={view.id} view={view} frame={frame} named={index < NAMED || alarming(view)} />
      ))}
    </g>
  );
}

const alarming = (view: NeighbourView): boolean =>
  view.dragging !== undefined || view.overOurAnchor === true || view.passing !== undefined;

function isOnPlan({ place }: NeighbourView, frame: Frame): boolean {
  const { x, y } = frame.toPixels(place);
  return Math.abs(x) < frame.width / 2 + BEYOND && Math.abs(y) < frame.height / 2 + BEYOND;
}

interface SwingProps {
  view: NeighbourView;
  frame: Frame;
}

interface VesselProps extends SwingProps {
  named: boolean;
}

/** Each second brings new views of the same boats: what would look the same is not drawn anew. */
function looksAlike(
  before: SwingProps & { named?: boolean },
  after: SwingProps & { named?: boolean },
): boolean {
  return (
    before.frame === after.frame && before.named === after.named && look(before.view) === look(after.view)
  );
}

/** All of a view that can be seen, to the decimetre and the metre. */
function look({
  place,
  heading,
  stale,
  dragging,
  activity,
  sog,
  cog,
  distance,
  circle,
  extent,
  name,
}: NeighbourView) {
  const spot = (at: { lat: number; lon: number }) => [at.lat.toFixed(6), at.lon.toFixed(6)];
  const whole = (value: number | undefined) => value?.toFixed(0);
  return JSON.stringify([
    spot(place),
    whole(heading),
    stale,
    activity,
    dragging && [dragging.speed.toFixed(1), whole(dragging.toward)],
    activity === 'under-way' && [sog?.toFixed(1), whole(cog)],
    whole(distance),
    circle && [spot(circle.anchor), whole(circle.radius)],
    extent,
    name,
  ]);
}

/** Her swing, as far as it can be guessed: an open ring with dots, never as sharp as our own circle. */
const Swing = memo(({ view: { circle, stale }, frame }: SwingProps) => {
  if (!circle || stale) return null;
  const { x, y } = frame.toPixels(circle.anchor);
  return <circle class="swing" cx={x} cy={y} r={circle.radius * frame.scale} />;
}, looksAlike);

const Vessel = memo(({ view, frame, named }: VesselProps) => {
  const at = frame.toPixels(view.place);
  const kind = view.stale ? 'stale' : view.dragging ? 'dragging' : view.activity;
  const { toBow, toStern, toPort, toStarboard } = view.extent;
  const long = (toBow + toStern) * frame.scale;
  return (
    <g class={`neighbour ${kind}`}>
      {view.heading !== undefined && long > SMALLEST_HULL ? (
        <path
          class={view.extentFrom === 'assumed' || view.headingFrom === 'assumed' ? 'assumed' : undefined}
          d={outline(toBow, toStern, toPort, toStarboard)}
          transform={`translate(${at.x.toFixed(1)} ${at.y.toFixed(1)}) rotate(${view.heading.toFixed(0)}) scale(${frame.scale.toFixed(4)})`}
          vector-effect="non-scaling-stroke"
        />
      ) : (
        <rect x={at.x - 4} y={at.y - 4} width="8" height="8" transform={`rotate(45 ${at.x} ${at.y})`} />
      )}
      <Going view={view} frame={frame} />
      {named && (
        <text x={at.x} y={at.y + Math.max(14, (toStern * frame.scale) / 2 + 12)} text-anchor="middle">
          {aroundWords.label(view)}
          {view.distance !== undefined && ` ${joined(length(Math.max(0, view.distance)))}`}
        </text>
      )}
    </g>
  );
}, looksAlike);

/** Where she will be in two minutes, when she goes anywhere. */
const AHEAD = 120;

function Going({ view, frame }: { view: NeighbourView; frame: Frame }) {
  const { dragging, activity, sog, cog, stale } = view;
  const goes = dragging
    ? { speed: dragging.speed, toward: dragging.toward }
    : activity === 'under-way' && sog !== undefined && cog !== undefined
      ? { speed: sog, toward: cog }
      : undefined;
  if (!goes || stale) return null;
  const at = frame.toPixels(view.place);
  const out = unit(goes.toward);
  const far = Math.max(14, goes.speed * AHEAD * frame.scale);
  return <path class="going" d={`M${at.x} ${at.y}l${out.x * far} ${out.y * far}`} />;
}

/** From above, bow up, metres about her antenna: pointed forward, square aft. */
function outline(toBow: number, toStern: number, toPort: number, toStarboard: number): string {
  const shoulder = -toBow + 0.3 * (toBow + toStern);
  const middle = (toStarboard - toPort) / 2;
  return `M${middle} ${-toBow}L${toStarboard} ${shoulder}V${toStern}H${-toPort}V${shoulder}Z`;
}
