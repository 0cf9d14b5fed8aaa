import { memo } from 'preact/compat';
import { useMemo, useRef } from 'preact/hooks';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import { age, clock, joined, length, speed } from '../../format.ts';
import { lyingWords } from '../../words/lying.ts';
import { useSize } from '../plan/size.ts';
import { type Column, type Hours, hoursOf } from './hours.ts';

const { strip: words } = lyingWords;

/** Lanes from top to bottom, pixels: label above, then the lane. */
const LABEL = 17;
const LANES = { distance: 76, moved: 30, wind: 44 };
const TOP = {
  distance: LABEL,
  moved: 2 * LABEL + LANES.distance,
  wind: 3 * LABEL + LANES.distance + LANES.moved,
};
const HEIGHT = TOP.wind + LANES.wind + 18;
const SIDE = 16;
/** Columns farther apart than this are not joined, in their own widths. */
const HOLE = 4;

/** The last hours in one look: how far she lay and might, whether the anchor moved, and the wind. */
export const Strip = memo(
  Drawn,
  (before, after) => before.circle === after.circle && newestLie(before) === newestLie(after),
);

interface Props {
  points: readonly TrackPoint[];
  circle: number | undefined;
}

/** A new column comes once a minute; the points between change nothing. */
const newestLie = ({ points }: Props) => points.findLast(({ lie }) => lie)?.at;

function Drawn({ points, circle }: Props) {
  const holder = useRef<HTMLDivElement>(null);
  const size = useSize(holder);
  const newest = newestLie({ points, circle });
  const hours = useMemo(() => hoursOf(points), [newest]);
  return (
    <figure class="strip-chart">
      <h2>{words.title}</h2>
      <div class="lanes" ref={holder}>
        {!hours && <p class="note">{words.waiting}</p>}
        {size && hours && (
          <svg role="img" aria-label={summary(hours)} viewBox={`0 0 ${size.width} ${HEIGHT}`}>
            <Lanes hours={hours} width={size.width} circle={circle} />
          </svg>
        )}
      </div>
      <figcaption>{hours && summary(hours)}</figcaption>
    </figure>
  );
}

function summary({ from, to, columns }: Hours): string {
  const farthest = columns.reduce((a, b) => (b.distance > a.distance ? b : a));
  const chance = Math.max(...columns.map(({ probability }) => probability));
  const winds = columns.flatMap(({ wind }) => (wind ? [wind] : []));
  const parts = [
    words.summary(age(to - from), joined(length(farthest.distance)), clock(farthest.at)),
    words.chance(`${Math.ceil(100 * chance)}\u00a0%`),
    winds.length > 0 &&
      words.winds(
        joined(speed(Math.min(...winds.map(({ least }) => least)))),
        joined(speed(Math.max(...winds.map(({ most }) => most)))),
      ),
  ];
  return `${parts.filter(Boolean).join('; ')}.`;
}

interface LanesProps {
  hours: Hours;
  width: number;
  circle: number | undefined;
}

function Lanes({ hours: { from, to, columns }, width, circle }: LanesProps) {
  const x = (at: number) => SIDE + ((at - from) / (to - from)) * (width - 2 * SIDE);
  const nearest = Math.min(...columns.map(({ distance, reach }) => Math.min(distance, reach)));
  const farthest =
    1.08 * Math.max(circle ?? 0, ...columns.map(({ distance, reach }) => Math.max(distance, reach)));
  const strongest = Math.max(5, ...columns.map(({ wind }) => wind?.most ?? 0));
  // Not from zero: what counts is how she lies to reach and circle. Both ends of the lane are labelled.
  const least = Math.max(0, nearest - 0.3 * (farthest - nearest));
  const distance = (value: number) =>
    TOP.distance + (1 - (value - least) / (farthest - least)) * LANES.distance;
  const moved = (value: number) => TOP.moved + (1 - value) * LANES.moved;
  const wind = (value: number) => TOP.wind + (1 - value / strongest) * LANES.wind;
  const hole = (HOLE * (to - from)) / 144;
  const runs = runsOf(columns, Math.max(240, hole));
  const line = (run: readonly Column[], y: (column: Column) => number) =>
    run.map((column, i) => `${i ? 'L' : 'M'}${x(column.at).toFixed(1)} ${y(column).toFixed(1)}`).join('');
  const over = (
    run: readonly Column[],
    upper: (column: Column) => number,
    lower: (column: Column) => number,
  ) => `${line(run, upper)}${line([...run].reverse(), lower).replace('M', 'L')}Z`;
  const windy = runs.map((run) => run.filter((column) => column.wind)).filter((run) => run.length > 0);
  const end = width - SIDE;
  return (
    <>
      <Ticks from={from} to={to} x={x} />
      {Object.entries(LANES).map(([name, height]) => {
        const y = TOP[name as keyof typeof TOP] + height;
        return <path key={name} class="ground" d={`M${SIDE} ${y}H${end}`} />;
      })}
      {runs.map((run) => (
        <g key={run[0]!.at}>
          <path class="reach" d={line(run, (column) => distance(column.reach))} />
          <path class="distance-line" d={line(run, (column) => distance(column.distance))} />
          <path
            class="moved"
            d={over(
              run,
              (column) => moved(column.probability),
              () => moved(0),
            )}
          />
        </g>
      ))}
      {circle !== undefined && <path class="limit" d={`M${SIDE} ${distance(circle)}H${end}`} />}
      {windy.map((run) => (
        <path
          key={run[0]!.at}
          class="winds"
          d={over(
            run,
            (column) => wind(column.wind!.most),
            (column) => wind(column.wind!.least),
          )}
        />
      ))}
      <Label y={TOP.distance} left={words.distance} right={joined(length(farthest))} width={width} />
      <text class="small" x={width - SIDE} y={TOP.distance + LANES.distance - 4} text-anchor="end">
        {joined(length(least))}
      </text>
      <Label y={TOP.moved} left={words.moved} right="100 %" width={width} />
      <Label y={TOP.wind} left={words.wind} right={joined(speed(strongest))} width={width} />
      {circle !== undefined && (
        <text class="small" x={width - SIDE} y={distance(circle) + 13} text-anchor="end">
          {words.circle}
        </text>
      )}
    </>
  );
}

/** Columns that follow each other without a hole, seconds. */
function runsOf(columns: readonly Column[], hole: number): Column[][] {
  const runs: Column[][] = [];
  let last: Column | undefined;
  for (const column of columns) {
    if (!last || column.at - last.at > hole) runs.push([]);
    runs.at(-1)!.push(column);
    last = column;
  }
  return runs;
}

const Label = ({ y, left, right, width }: { y: number; left: string; right: string; width: number }) => (
  <>
    <text class="small" x={SIDE} y={y - 4}>
      {left}
    </text>
    <text class="small" x={width - SIDE} y={y - 4} text-anchor="end">
      {right}
    </text>
  </>
);

/** Seconds between two marks of the time: as many as have room. */
const STEPS = [900, 1800, 3600, 2 * 3600, 3 * 3600];
const ROOM = 56;

function Ticks({ from, to, x }: { from: number; to: number; x: (at: number) => number }) {
  const step = STEPS.find((seconds) => x(from + seconds) - x(from) >= ROOM) ?? STEPS.at(-1)!;
  const ticks: number[] = [];
  for (let at = Math.ceil(from / step) * step; at <= to; at += step) ticks.push(at);
  return (
    <>
      {ticks.map((at) => (
        <g key={at}>
          <path class="tick" d={`M${x(at)} ${TOP.distance}V${HEIGHT - 18}`} />
          {x(at) > x(from) + 12 && x(at) < x(to) - 12 && (
            <text class="small" x={x(at)} y={HEIGHT - 4} text-anchor="middle">
              {clock(at)}
            </text>
          )}
        </g>
      ))}
    </>
  );
}
