import { useRef } from 'preact/hooks';
import type { TideView } from '../../../shared/tides/view.ts';
import { clock, joined, length } from '../../format.ts';
import { tideWords as words } from '../../words/tide.ts';
import { useSize } from '../plan/size.ts';

const PAD = { top: 26, bottom: 24, side: 14 };
/** Hours between two marks of the time. */
const TICK = 6 * 3600;

/** The curve of the tide: as far as it is known and no farther; now is a line, high and low waters carry time and height. */
export function Curve({ tide, now }: { tide: TideView; now: number }) {
  const holder = useRef<HTMLElement>(null);
  const size = useSize(holder);
  const { from, step, heights } = tide.curve;
  const until = from + step * (heights.length - 1);
  return (
    <figure class="tide-curve" ref={holder}>
      {size && heights.length > 1 && (
        <svg
          role="img"
          aria-label={words.curve(clock(from), clock(until))}
          viewBox={`0 0 ${size.width} ${size.height}`}
        >
          <Drawn tide={tide} now={now} width={size.width} height={size.height} until={until} />
        </svg>
      )}
    </figure>
  );
}

interface Props {
  tide: TideView;
  now: number;
  width: number;
  height: number;
  until: number;
}

function Drawn({ tide, now, width, height, until }: Props) {
  const { from, step, heights } = tide.curve;
  const least = Math.min(...heights);
  const range = Math.max(0.2, Math.max(...heights) - least);
  const x = (at: number) => PAD.side + ((at - from) / (until - from)) * (width - 2 * PAD.side);
  const y = (h: number) => PAD.top + (1 - (h - least) / range) * (height - PAD.top - PAD.bottom);
  const line = heights
    .map((h, i) => `${i === 0 ? 'M' : 'L'}${x(from + i * step).toFixed(1)} ${y(h).toFixed(1)}`)
    .join('');
  const ticks: number[] = [];
  for (let at = Math.ceil(from / TICK) * TICK; at <= until; at += TICK) ticks.push(at);
  return (
    <>
      <path class="water" d={`${line}V${height - PAD.bottom}H${x(from)}Z`} />
      <path class="height" d={line} />
      {ticks.map((at) => (
        <text key={at} class="tick" x={x(at)} y={height - 6} text-anchor="middle">
          {clock(at)}
        </text>
      ))}
      {now >= from && now <= until && (
        <line class="now" x1={x(now)} x2={x(now)} y1={PAD.top - 12} y2={height - PAD.bottom} />
      )}
      {tide.turns.map((turn) => (
        <text
          key={turn.at}
          class="turn"
          x={Math.min(width - 40, Math.max(40, x(turn.at)))}
          y={turn.high ? y(turn.height) - 8 : y(turn.height) - 6}
          text-anchor="middle"
        >
          {joined(length(turn.height, true))}
        </text>
      ))}
      {tide.least && (
        <line
          class="least"
          x1={x(tide.least.at)}
          x2={x(tide.least.at)}
          y1={PAD.top}
          y2={height - PAD.bottom}
        />
      )}
    </>
  );
}
