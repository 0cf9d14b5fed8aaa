import type { FieldKey } from '../../words/setup.ts';

/** Pixels of every drawing of the set-up page. */
export const WIDTH = 360;
export const HEIGHT = 176;
export const EDGE = 26;

interface MeasureProps {
  name: FieldKey;
  from: readonly [number, number];
  to: readonly [number, number];
  /** The way that is measured, when it is not straight. */
  along?: string;
  active: FieldKey | undefined;
  label: string | undefined;
}

/** A length with a stroke across each end. The one that is meant is strong, and bears its figure. */
export function Measure({ name, from, to, along, active, label }: MeasureProps) {
  const [[x1, y1], [x2, y2]] = [from, to];
  const level = Math.abs(y1 - y2) < 0.01;
  const tick = x1 === x2 ? 'm-5 0h10' : 'm0 -5v10';
  const strong = name === active;
  const middle = (x1 + x2) / 2;
  const toRight = middle < WIDTH * 0.7;
  return (
    <g class={strong ? 'measure strong' : 'measure'}>
      <path d={`${along ?? `M${x1} ${y1}L${x2} ${y2}`}M${x1} ${y1}${tick}M${x2} ${y2}${tick}`} />
      {strong && label && (
        <text
          x={level ? middle : middle + (toRight ? 10 : -10)}
          y={level ? (y1 > HEIGHT - 26 ? y1 - 7 : y1 + 17) : (y1 + y2) / 2 + 5}
          text-anchor={level ? 'middle' : toRight ? 'start' : 'end'}
        >
          {label}
        </text>
      )}
    </g>
  );
}
