import type { Labels } from './profile.tsx';
import { type Scene, stacked, type View } from './scene.ts';

interface Props {
  depth: Scene['depth'];
  view: View;
  labels: Labels;
}

/** Pixels between two labels, and where label, leader and line meet. */
const APART = 14;
const EDGE = { label: 84, line: 96 };

/** High water, now and low water: each a line over the width, and its depth at the left where only the cable's end lies deep below. */
export function Levels({ depth, view, labels }: Props) {
  const levels = [
    { name: 'low', up: depth.low },
    { name: 'now', up: depth.now },
    { name: 'high', up: depth.high },
  ] as const;
  // Without a tide there is one level, and it is now.
  const shown = depth.high === depth.low ? levels.filter(({ name }) => name === 'now') : levels;
  const places = stacked(
    shown.map(({ up }) => view.y(up)),
    APART,
  );
  return (
    <g class="levels">
      {shown.map(({ name, up }, i) => (
        <g key={name} class={name}>
          <path d={`M${EDGE.label} ${places[i]}L${EDGE.line} ${view.y(up)}H${view.width}`} />
          <text x={EDGE.label - 4} y={places[i]} dy="0.35em" text-anchor="end">
            {labels[name]}
          </text>
        </g>
      ))}
    </g>
  );
}
