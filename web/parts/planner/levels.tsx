import type { Labels } from './profile.tsx';
import { type Scene, stacked, type View } from './scene.ts';

interface Props {
  depth: Scene['depth'];
  view: View;
}

/** Pixels between two labels, and where label, leader and line meet. */
const APART = 14;
const EDGE = { label: 84, line: 96 };

const NAMES = ['low', 'now', 'high'] as const;

/** Where line and label of each level come; high and low water only where they differ from now. */
function levelsOf({ depth, view }: Props) {
  const names = NAMES.filter((name) => name === 'now' || depth[name] !== depth.now);
  const lines = names.map((name) => view.y(depth[name]));
  const places = stacked(lines, APART);
  return names.map((name, i) => ({ name, line: lines[i]!, place: places[i]! }));
}

/** High water, now and low water over the width, with leaders to labels at the left, where the cable lies deepest. */
export function LevelLines(props: Props) {
  return (
    <g class="levels">
      {levelsOf(props).map(({ name, line, place }) => (
        <path
          key={name}
          class={name}
          d={`M${EDGE.label} ${place}L${EDGE.line} ${line}H${props.view.width}`}
        />
      ))}
    </g>
  );
}

export function LevelLabels({ labels, ...props }: Props & { labels: Labels }) {
  const surface = props.view.y(props.depth.high);
  return (
    <g class="levels">
      {levelsOf(props).map(({ name, place }) => (
        <text
          key={name}
          class={place > surface ? 'in-water' : undefined}
          x={EDGE.label - 4}
          y={place}
          dy="0.35em"
          text-anchor="end"
        >
          {labels[name]}
        </text>
      ))}
    </g>
  );
}
