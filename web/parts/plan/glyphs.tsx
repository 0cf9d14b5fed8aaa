import { type Point, unit } from '../../projection.ts';
import type { Frame } from './frame.ts';

/** Our own small drawings on the plan. */

const at = ({ x, y }: Point) => `translate(${x.toFixed(1)} ${y.toFixed(1)})`;

/** The mark: ring, stock, shank, arms and bills, drawn upright round the place where the anchor lies. */
export function AnchorGlyph({ place }: { place: Point }) {
  return (
    <g class="anchor" transform={at(place)}>
      <circle cy="-11" r="3" />
      <path d="M0 -8V12M-6 -4.5H6M-10.5 4.5C-9 10.5 -4.5 12 0 12S9 10.5 10.5 4.5M-13 7L-10.5 4.5L-7.5 6.5M13 7L10.5 4.5L7.5 6.5" />
    </g>
  );
}

interface Flow {
  frame: Frame;
  /** Where it comes from, degrees true. */
  from: number;
  label: string;
}

/** Wind at the rim it blows from: a straight shaft, feathered at the tail. */
export function WindArrow({ frame, from, label }: Flow) {
  return (
    <RimArrow frame={frame} from={from} label={label} kind="wind">
      <path d="M0 -16V15M-6 7L0 16L6 7M0 -16L8 -20M0 -10L8 -14" />
    </RimArrow>
  );
}

/** Stream at the rim it runs in from: a shaft in waves. */
export function StreamArrow({ frame, from, label, soft }: Flow & { soft: boolean }) {
  return (
    <RimArrow frame={frame} from={from} label={label} kind={soft ? 'stream soft' : 'stream'}>
      <path d="M0 -17C5 -14 5 -10 0 -7S-5 0 0 3S2 8 0 13M-6 7L0 16L6 7" />
    </RimArrow>
  );
}

function RimArrow({
  frame,
  from,
  label,
  kind,
  children,
}: Flow & { kind: string; children: preact.JSX.Element }) {
  const out = unit(from);
  const middle = Math.min(frame.radius + 21, Math.min(frame.width, frame.height) / 2 - 21);
  const place = { x: out.x * middle, y: out.y * middle };
  // The label stands beside the shaft, clockwise of it, so that two arrows 30° apart keep their own.
  const beside = { x: place.x - out.y * 32, y: place.y + out.x * 20 };
  return (
    <g class={kind}>
      <g transform={`${at(place)} rotate(${from.toFixed(1)})`}>{children}</g>
      <text x={beside.x} y={beside.y} dy="0.35em" text-anchor="middle">
        {label}
      </text>
    </g>
  );
}

export function NorthArrow({ frame, label }: { frame: Frame; label: string }) {
  return (
    <g class="north" transform={`translate(${-frame.width / 2 + 18} ${-frame.height / 2 + 30})`}>
      <path d="M0 12V-8M-5 -1L0 -10L5 -1" />
      <text y="-14" text-anchor="middle">
        {label}
      </text>
    </g>
  );
}

interface Scale {
  frame: Frame;
  /** Metres in one unit of the reader's. */
  unit: number;
  name: string;
}

const STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000];

/** A bar of a round length, at most 80 pixels. */
export function ScaleBar({ frame, unit: metres, name }: Scale) {
  const longest = 80 / frame.scale / metres;
  const length = STEPS.findLast((step) => step <= longest) ?? 1;
  const width = length * metres * frame.scale;
  return (
    <g class="scale" transform={`translate(${-frame.width / 2 + 12} ${frame.height / 2 - 12})`}>
      <path d={`M0 -5V0H${width.toFixed(1)}V-5`} />
      <text x={width / 2} y="-7" text-anchor="middle">{`${length} ${name}`}</text>
    </g>
  );
}
