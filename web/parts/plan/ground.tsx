import { turn } from '../../../shared/quantities/angle.ts';
import type { State } from '../../../shared/state.ts';
import { joined, length } from '../../format.ts';
import { unit } from '../../projection.ts';
import { words } from '../../words.ts';
import type { Frame } from './frame.ts';
import { AnchorGlyph } from './glyphs.tsx';

interface Props {
  state: State;
  frame: Frame;
}

/** What lies still: circle, reach of the cable, mark and estimated anchor. */
export function Ground({ state, frame }: Props) {
  const { mark } = state.watch;
  if (!mark) return null;
  const place = frame.toPixels(mark);
  return (
    <>
      <Circle state={state} frame={frame} />
      <Reach state={state} frame={frame} />
      <circle class="soft-mark" cx={place.x} cy={place.y} r={Math.max(2 * mark.sigma * frame.scale, 4)} />
      <EstimatedAnchor state={state} frame={frame} />
      <AnchorGlyph place={place} />
    </>
  );
}

/** Shares of the reach's uncertainty (two standard deviations each way) that are laid over each other for a soft edge. */
const SOFT = [1, 0.66, 0.33];

/** How far the cable lets the roller go in this wind: a band as wide as its uncertainty. */
function Reach({ state: { watch }, frame }: Props) {
  const { mark, cable } = watch;
  if (!mark || !cable) return null;
  const { x, y } = frame.toPixels(mark);
  const width = Math.max(4 * cable.reach.sigma * frame.scale, 6);
  return SOFT.map((share) => (
    <circle
      key={share}
      class="reach"
      cx={x}
      cy={y}
      r={cable.reach.value * frame.scale}
      stroke-width={width * share}
    />
  ));
}

/** Smaller than this an ellipse is no shape, and a line from mark to anchor shorter than this says nothing, pixels. */
const LEAST = { ellipse: 4, line: 9 };

/** Where the anchor is thought to be now: two standard deviations round the best guess, and the way there from its mark. */
function EstimatedAnchor({ state: { watch }, frame }: Props) {
  const { anchor, mark } = watch;
  if (!anchor || !mark) return null;
  const { x, y } = frame.toPixels(anchor);
  const from = frame.toPixels(mark);
  const { major, minor, bearing } = anchor.ellipse;
  const radius = (sigma: number) => Math.max(2 * sigma * frame.scale, LEAST.ellipse);
  return (
    <>
      <ellipse
        class="estimated-anchor"
        rx={radius(minor)}
        ry={radius(major)}
        transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${bearing.toFixed(0)})`}
      />
      {Math.hypot(x - from.x, y - from.y) > LEAST.line && (
        <>
          <line class="anchor-way" x1={from.x} y1={from.y} x2={x} y2={y} />
          <path class="anchor-guess" d={`M${x - 4} ${y - 4}l8 8m0 -8l-8 8`} />
        </>
      )}
    </>
  );
}

/** A ring this small carries no label, pixels. */
const ROOM_FOR_LABEL = 48;
/** Half the label's height, and half the width of one of its letters, with a little air, pixels. */
const LABEL = { height: 11, letter: 3.4, air: 6 };
const PLACES = [225, 135, 315, 45, 180, 270, 90, 0];

/** The circle with its radius written into the line, as on a chart. */
function Circle({ state, frame }: Props) {
  const { mark, circle } = state.watch;
  if (!mark || !circle) return null;
  const { x, y } = frame.toPixels(mark);
  const r = circle.radius * frame.scale;
  if (r < ROOM_FOR_LABEL) return <circle class="circle" cx={x} cy={y} r={r} />;
  const place = freePlace(state);
  const out = unit(place);
  // Along the line the label is as long as the line takes to leave its box.
  const label = words.plan.circle(joined(length(circle.radius)));
  const width = label.length * LABEL.letter + LABEL.air;
  const half = Math.min(width / Math.abs(out.y), LABEL.height / Math.abs(out.x));
  const gap = (half / r) * (180 / Math.PI);
  const [from, to] = [unit(place + gap), unit(place - gap)];
  const arc = `M${x + from.x * r} ${y + from.y * r}A${r} ${r} 0 1 1 ${x + to.x * r} ${y + to.y * r}`;
  return (
    <>
      <circle class="inside-circle" cx={x} cy={y} r={r} />
      <path class="circle" d={arc} />
      <text class="circle-label" x={x + out.x * r} y={y + out.y * r} dy="0.35em" text-anchor="middle">
        {label}
      </text>
    </>
  );
}

/** The one of eight directions that is farthest from boat, wind and stream arrow. */
function freePlace({ watch, vessel }: State): number {
  const wind = vessel.windGround?.value.from;
  const set = vessel.stream?.value.set ?? watch.lie?.stream?.set.value;
  const { bearing } = watch;
  const taken = [
    bearing === undefined ? undefined : bearing + 180,
    wind,
    set === undefined ? undefined : set + 180,
  ].filter((direction) => direction !== undefined);
  const room = (place: number) =>
    Math.min(180, ...taken.map((direction) => Math.abs(turn(place, direction))));
  return PLACES.reduce((a, b) => (room(b) > room(a) ? b : a));
}
