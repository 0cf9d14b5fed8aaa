import { useRef } from 'preact/hooks';
import type { ProfilePoint } from '../../../shared/cable/profile.ts';
import { steadyReach } from '../plan/frame.ts';
import { useSize } from '../plan/size.ts';
import { LevelLabels, LevelLines } from './levels.tsx';
import { lyingOut, neededSpan, rollerOut, type Scene, type View, viewOf } from './scene.ts';
import { SideHull } from './sideHull.tsx';

/** What is written into the drawing; each may be left out. */
export interface Labels {
  /** Metres out: the one figure that is read from afar. */
  veer: string;
  high: string;
  now: string;
  low: string;
  reach: string;
  keel: string;
  onBottom: string;
  wind?: string | undefined;
  room?: string | undefined;
}

interface Props {
  /** What the drawing shows, in words. */
  title: string;
  scene: Scene;
  /** Left out: the drawing is an outline that no figure belongs to at present. */
  labels?: Labels | undefined;
}

/** Boat, cable, anchor and bottom from the side, to scale: at high water, and dashed at low water. */
export function Profile({ title, scene, labels }: Props) {
  const holder = useRef<HTMLDivElement>(null);
  const size = useSize(holder);
  const span = useRef<number | undefined>(undefined);
  span.current = steadyReach(span.current, neededSpan(scene));
  const view = size && viewOf(scene, span.current, size);
  return (
    <div class={labels ? 'side-view' : 'side-view outline'} ref={holder}>
      {view && (
        <svg role="img" aria-label={title} viewBox={`0 0 ${view.width} ${view.height}`}>
          <Water scene={scene} view={view} />
          <Holds scene={scene} view={view} />
          {labels && <LevelLines depth={scene.depth} view={view} />}
          <Boats scene={scene} view={view} />
          <Keel scene={scene} view={view} label={labels?.keel} />
          {labels && <LevelLabels depth={scene.depth} view={view} labels={labels} />}
          {labels && <Measures scene={scene} view={view} labels={labels} />}
        </svg>
      )}
    </div>
  );
}

interface Part {
  scene: Scene;
  view: View;
}

/** Pixels between the strokes that make the ground. */
const HATCH = 13;

function Water({ scene: { depth }, view }: Part) {
  const { width, height, x, y, bottom, scale } = view;
  const end = (pixels: number) => y(bottom((pixels - x(0)) / scale));
  const ground = `L${width} ${end(width)}L0 ${end(0)}Z`;
  const strokes = Array.from({ length: Math.ceil(width / HATCH) }, (_, i) => (i + 0.7) * HATCH);
  return (
    <>
      <path class="sea" d={`M0 ${y(depth.high)}H${width}${ground}`} />
      <path class="earth" d={`M0 ${height}H${width}${ground}`} />
      <path class="hatch" d={strokes.map((at) => `M${at} ${end(at) + 2}l-5 6`).join('')} />
      <path class="bottom" d={`M0 ${end(0)}L${width} ${end(width)}`} />
    </>
  );
}

/** Shares of two standard deviations each way that are laid over each other for a soft edge. */
const SOFT = [1, 0.66, 0.33];

/** Where wind and stream should hold the roller: as wide as that is uncertain. */
function Holds({ scene: { holds, depth }, view: { x, y, scale, bottom } }: Part) {
  if (!holds) return null;
  const top = y(depth.now);
  return SOFT.map((share) => {
    const half = Math.max(3, 2 * holds.sigma * scale) * share;
    return (
      <rect
        key={share}
        class="holds"
        x={x(holds.value) - half}
        y={top}
        width={2 * half}
        height={y(bottom(holds.value)) - top}
      />
    );
  });
}

const line = (cable: readonly ProfilePoint[], { x, y }: View): string =>
  cable.map(({ out, up }, i) => `${i ? 'L' : 'M'}${x(out).toFixed(1)} ${y(up).toFixed(1)}`).join('');

function Boats({ scene: { boat, depth, cable }, view }: Part) {
  const { x, y, scale, bottom } = view;
  const lies = lyingOut(cable.high, bottom);
  return (
    <>
      <path class="cable at-low" d={line(cable.low, view)} />
      <SideHull class="boat at-low" boat={boat} x={x(rollerOut(cable.low))} y={y(depth.low)} scale={scale} />
      <SideHull class="boat" boat={boat} x={x(rollerOut(cable.high))} y={y(depth.high)} scale={scale} />
      <path class="cable" d={line(cable.high, view)} />
      {lies * scale > DASHES && (
        <path class="cable lying" d={`M${x(0)} ${y(0)}L${x(lies)} ${y(bottom(lies))}`} />
      )}
      <circle class="roller" cx={x(rollerOut(cable.high))} cy={y(cable.high[0]?.up ?? 0)} r="3" />
      <Anchor x={x(0)} y={y(0)} />
    </>
  );
}

/** Shorter than this on the screen, chain on the bottom has no room for its dashes, pixels. */
const DASHES = 10;

/** An anchor that has dug in: shank towards the boat, fluke in the ground. A sign, not to scale. */
const Anchor = ({ x, y }: { x: number; y: number }) => (
  <g class="anchor" transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
    <path d="M0 0L-13 -3C-18 -3 -19 3 -14 8M-14 8L-5 9L-13 1" />
  </g>
);

/** Share of her length abaft the bow where the keel is deepest. */
const KEEL_AT = 0.5;

/** The water under the keel at low water. */
function Keel({ scene: { boat, depth, cable }, view, label }: Part & { label: string | undefined }) {
  const { x, y, bottom, width, ground } = view;
  const out = rollerOut(cable.low) + KEEL_AT * boat.length;
  const [top, end] = [y(depth.low - boat.draft), y(bottom(out))];
  return (
    <g class="measure">
      <path d={`M${x(out) - 7} ${top}h14M${x(out)} ${top}V${end}`} />
      {label && (
        <text x={width - 8} y={Math.max(ground, end) + 21} text-anchor="end">
          {label}
        </text>
      )}
    </g>
  );
}

/** A length that lies on the bottom is labelled where the label has room, pixels. */
const ROOM_FOR_LABEL = 120;
/** Half the width of a letter, pixels: the line of a measure leaves its label free. */
const HALF_LETTER = 3.5;

/** Two labels on one line have room beside each other when this is less than the drawing's width, pixels. */
const lettersOf = ({ onBottom, keel }: Labels): number =>
  2 * HALF_LETTER * (onBottom.length + keel.length) + 40;

function Measures({ scene, view, labels }: Part & { labels: Labels }) {
  const { x, y, ground, height, width } = view;
  const reach = x(rollerOut(scene.cable.high));
  const lies = x(lyingOut(scene.cable.high, view.bottom)) - x(0);
  const low = height - 8;
  const middle = (x(0) + reach) / 2;
  const half = labels.reach.length * HALF_LETTER + 6;
  const room = scene.room === undefined ? undefined : x(scene.room);
  return (
    <g class="measure">
      <path
        d={`M${x(0)} ${low - 10}v8M${x(0)} ${low - 6}H${middle - half}M${middle + half} ${low - 6}H${reach}M${reach} ${low - 10}v8`}
      />
      <text x={middle} y={low - 1} text-anchor="middle">
        {labels.reach}
      </text>
      {lies > ROOM_FOR_LABEL && lettersOf(labels) < width && (
        <text x={x(0)} y={Math.max(ground, y(0)) + 21}>
          {labels.onBottom}
        </text>
      )}
      {labels.wind && (
        <g class="wind">
          <path d="M22 20h44m-8 -6l8 6l-8 6m-36 -6l-5 -7m13 7l-5 -7" />
          <text x="76" y="25">
            {labels.wind}
          </text>
        </g>
      )}
      <text class="veer" x={width - 10} y="26" text-anchor="end">
        {labels.veer}
      </text>
      {room !== undefined && room < width && labels.room && (
        <g class="room">
          <path d={`M${room} 50V${y(view.bottom(scene.room!))}`} />
          <text x={Math.min(room + 4, width - 6)} y="44" text-anchor="end">
            {labels.room}
          </text>
        </g>
      )}
    </g>
  );
}
