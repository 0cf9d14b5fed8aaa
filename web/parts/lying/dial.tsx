import { memo } from 'preact/compat';
import { useMemo } from 'preact/hooks';
import { circularMean, turn } from '../../../shared/quantities/angle.ts';
import type { State } from '../../../shared/state.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import { bearing, joined, speed } from '../../format.ts';
import { unit } from '../../projection.ts';
import { lyingWords } from '../../words/lying.ts';
import { StreamArrow, WindArrow } from '../plan/glyphs.tsx';

const { dial: words } = lyingWords;

const HOUR = 3600;
/** One direction is drawn for so many seconds: sheers show, single gusts and readings do not. */
const BIN = { wind: 90, bow: 30 };
/** Two of them farther apart than this are not joined. */
const HOLE = 180;
/** The dial in its own units: its rim, where the hour begins, and the whole drawing. */
const RIM = 78;
const HUB = 12;
const FRAME = { width: 216, height: 216, radius: RIM, scale: 1, toPixels: () => ({ x: 0, y: 0 }) };

/** Where wind and bow have pointed in the last hour: straight rays when steady, bent when they turn, broad when she sheers. */
export const Dial = memo(
  Drawn,
  (before, after) => before.points === after.points && look(before.state) === look(after.state),
);

interface Props {
  state: State;
  points: readonly TrackPoint[];
}

/** All of the state that is seen here, as finely as it is seen. */
function look({ vessel, watch: { lie } }: State): string {
  const { windGround, stream } = vessel;
  return JSON.stringify([
    windGround?.value.from.toFixed(0),
    [stream?.value.set ?? lie?.stream?.set.value, lie?.divergence].map((angle) => angle?.toFixed(0)),
    (stream?.value.drift ?? lie?.stream?.drift.value)?.toFixed(2),
    stream === undefined,
    lie?.to,
    lie?.streamUnknown,
  ]);
}

function Drawn({ state, points }: Props) {
  const past = useMemo(() => pastOf(points), [points]);
  const { vessel, watch } = state;
  const wind = vessel.windGround?.value;
  const told = vessel.stream?.value;
  const found = watch.lie?.stream;
  const set = told?.set ?? found?.set.value;
  const drift = told?.drift ?? found?.drift.value;
  return (
    <figure class="dial">
      <h2>{words.title}</h2>
      <div class="dial-body">
        <svg role="img" aria-label={words.drawing} viewBox="-108 -108 216 216">
          <circle class="rim" r={RIM} />
          <circle class="rim" r={(RIM + HUB) / 2} />
          <path
            class="rim"
            d={`M0 ${-RIM - 5}V${-RIM + 5}M${RIM - 5} 0H${RIM + 5}M0 ${RIM - 5}V${RIM + 5}M${-RIM + 5} 0H${-RIM - 5}`}
          />
          <path class="bow" d={past.bow.line} />
          <path class="winds" d={past.wind.line} />
          <text class="small north" y={-RIM + 17} text-anchor="middle">
            N
          </text>
          {wind && <WindArrow frame={FRAME} from={wind.from} label="" />}
          {set !== undefined && drift !== undefined && (
            <StreamArrow frame={FRAME} from={set + 180} label="" soft={!told} />
          )}
        </svg>
        <dl>
          <Line
            label={words.wind}
            texts={[
              past.speeds && words.speeds(joined(speed(past.speeds.least)), joined(speed(past.speeds.most))),
              past.wind.least !== undefined && words.from(bearing(past.wind.least), bearing(past.wind.most!)),
            ]}
            missing={words.noWind}
          />
          <Line
            label={words.bow}
            texts={[
              past.bow.mean !== undefined &&
                words.swings(`${Math.round(past.bow.wide)}°`, bearing(past.bow.mean)),
            ]}
            missing={words.noBow}
          />
          <Line
            label={words.stream}
            texts={[
              drift !== undefined &&
                set !== undefined &&
                words.sets(joined(speed(drift, true)), bearing(set)),
              watch.lie?.divergence !== undefined &&
                words.apart(`${Math.round(Math.abs(watch.lie.divergence))}°`),
              watch.lie?.to && words.lies[watch.lie.to],
            ]}
            missing={watch.lie?.streamUnknown ?? words.noStream}
          />
        </dl>
      </div>
      <figcaption>{words.how}</figcaption>
    </figure>
  );
}

interface LineProps {
  label: string;
  texts: readonly (string | false | undefined)[];
  missing: string;
}

function Line({ label, texts, missing }: LineProps) {
  const known = texts.filter((text) => typeof text === 'string');
  return (
    <div>
      <dt>{label}</dt>
      {known.length === 0 ? <dd class="note">{missing}</dd> : known.map((text) => <dd key={text}>{text}</dd>)}
    </div>
  );
}

interface Sweep {
  line: string;
  /** Circular mean, the ends of what was swept clockwise, and how wide that is, degrees. */
  mean?: number;
  least?: number;
  most?: number;
  wide: number;
}

interface Past {
  wind: Sweep;
  bow: Sweep;
  speeds?: { least: number; most: number };
}

function pastOf(points: readonly TrackPoint[]): Past {
  const newest = points.at(-1)?.at ?? 0;
  const hour = points.slice(points.findIndex(({ at }) => at > newest - HOUR));
  const winds = hour.flatMap(({ wind }) => (wind === undefined ? [] : [wind]));
  return {
    wind: sweep(hour, newest, BIN.wind, ({ windFrom }) => windFrom),
    bow: sweep(hour, newest, BIN.bow, ({ heading }) => heading),
    ...(winds.length > 0 && { speeds: { least: Math.min(...winds), most: Math.max(...winds) } }),
  };
}

function sweep(
  hour: readonly TrackPoint[],
  newest: number,
  width: number,
  of: (point: TrackPoint) => number | undefined,
): Sweep {
  const bins = new Map<number, number[]>();
  for (const point of hour) {
    const direction = of(point);
    if (direction === undefined) continue;
    const bin = Math.floor(point.at / width);
    bins.set(bin, [...(bins.get(bin) ?? []), direction]);
  }
  let line = '';
  let last: number | undefined;
  const means: number[] = [];
  for (const [bin, directions] of bins) {
    const mean = circularMean(directions)?.mean;
    if (mean === undefined) continue;
    means.push(mean);
    const at = bin * width;
    const out = HUB + (RIM - HUB) * Math.max(0, Math.min(1, 1 - (newest - at) / HOUR));
    const { x, y } = unit(mean);
    const joins = last !== undefined && at - last <= HOLE;
    line += `${joins ? 'L' : 'M'}${(x * out).toFixed(1)} ${(y * out).toFixed(1)}`;
    last = at;
  }
  const all = circularMean(means);
  if (!all) return { line, wide: 0 };
  const turns = means.map((direction) => turn(all.mean, direction));
  const [least, most] = [Math.min(...turns), Math.max(...turns)];
  return {
    line,
    mean: all.mean,
    least: all.mean + least + 360,
    most: all.mean + most + 360,
    wide: most - least,
  };
}
