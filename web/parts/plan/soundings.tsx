import { memo } from 'preact/compat';
import type { SoundingsView } from '../../../shared/soundings/view.ts';
import type { State } from '../../../shared/state.ts';
import type { Frame } from './frame.ts';

/** Levels of water under the keel at the least tide ahead, m: the less, the denser the hatching. */
const LEVELS = [0.5, 1.5, 3];

/** The bottom as she has sounded it, shaded by what is left under the keel; where nothing is known nothing is drawn. */
export function Soundings({ state, frame }: { state: State; frame: Frame }) {
  const { soundings, boat, tide } = state;
  if (!soundings || soundings.cells.length === 0) return null;
  // Reduced soundings are shown for the least tide ahead, others as they were.
  const height = soundings.reduced ? leastHeight(tide) : 0;
  if (height === undefined) return null;
  return <Cells soundings={soundings} over={boat.draft - height} frame={frame} />;
}

function leastHeight(tide: State['tide']): number | undefined {
  const heights = tide?.curve.heights ?? [];
  return heights.length === 0
    ? undefined
    : Math.min(...heights, ...(tide?.turns ?? []).map(({ height }) => height));
}

interface Props {
  soundings: SoundingsView;
  /** Depth at which nothing is left under the keel, m. */
  over: number;
  frame: Frame;
}

/** One path for each level: a few hundred squares cost no more than four lines. */
const Cells = memo(({ soundings: { origin, side, cells }, over, frame }: Props) => {
  const corner = frame.toPixels(origin);
  const size = side * frame.scale;
  const paths: string[] = ['', '', '', ''];
  for (const [i, j, depth] of cells) {
    const under = depth - over;
    const level = LEVELS.findIndex((limit) => under < limit);
    const x = (corner.x + i * size).toFixed(1);
    const y = (corner.y - (j + 1) * size).toFixed(1);
    paths[level < 0 ? 3 : level] += `M${x} ${y}h${size.toFixed(1)}v${size.toFixed(1)}h-${size.toFixed(1)}z`;
  }
  return (
    <g class="soundings">
      {paths.map((d, level) => d !== '' && <path key={String(level)} class={`under-${level}`} d={d} />)}
    </g>
  );
});
