import { useSignal } from '@preact/signals';
import { useMemo, useRef } from 'preact/hooks';
import type { Night } from '../../../shared/logbook/night.ts';
import { joined, length, speed } from '../../format.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { useSize } from '../plan/size.ts';
import { loudAt } from './loud.ts';
import { alertBeside, at, go, playing, scrubbing } from './opened.ts';
import { deadTimes, drawStrips, span, ticks } from './strips.ts';
import { day, hour, second } from './when.ts';

const STRIP = 24;
/** Between two strips, with room for the name of the lower one. */
const APART = 13;
const ALERTS = 26;
const AXIS = 15;
const SPEEDS = [1, 10, 60, 600, 3600];
/** Seconds that keys go by. */
const KEYS: Record<string, number> = { ArrowLeft: -30, ArrowRight: 30, PageUp: -600, PageDown: 600 };

/** The night as strips over its time, under the thumb: wherever it is touched, that moment is shown. */
export function TimeBar({ night }: { night: Night }) {
  return (
    <section class="time-bar" aria-label={words.bar}>
      <Moment />
      <Bar night={night} />
      <Controls night={night} />
    </section>
  );
}

function Moment() {
  return (
    <p class="moment">
      <span class="unseen">{words.moment} </span>
      <strong>{second(at.value)}</strong> <span class="unit">{day(at.value)}</span>
    </p>
  );
}

function Bar({ night }: { night: Night }) {
  const holder = useRef<HTMLDivElement>(null);
  const size = useSize(holder);
  const { from, to } = span(night);
  const width = size?.width ?? 0;
  const drawn = useMemo(() => (width > 0 ? drawStrips(night, width, STRIP) : []), [night, width]);
  const height = ALERTS + drawn.length * (STRIP + APART) + AXIS;
  const touch = (event: PointerEvent) => {
    const { left } = holder.current!.getBoundingClientRect();
    go(from + ((event.clientX - left) / width) * (to - from));
  };
  const still = useMemo(
    () => width > 0 && <Still night={night} width={width} height={height} drawn={drawn} />,
    [night, width, height, drawn],
  );
  return (
    <div
      class="bar"
      ref={holder}
      role="slider"
      tabIndex={0}
      aria-label={words.bar}
      aria-description={words.barHelp}
      aria-valuemin={from}
      aria-valuemax={to}
      aria-valuenow={Math.round(at.value)}
      aria-valuetext={second(at.value)}
      style={{ height: `${height}px` }}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        scrubbing.value = true;
        playing.value = 0;
        touch(event);
      }}
      onPointerMove={(event) => scrubbing.value && touch(event)}
      onPointerUp={() => {
        scrubbing.value = false;
      }}
      onPointerCancel={() => {
        scrubbing.value = false;
      }}
      onKeyDown={(event) => {
        const by = KEYS[event.key];
        const end = { Home: from, End: to }[event.key];
        if (by === undefined && end === undefined) return;
        event.preventDefault();
        go(end ?? at.peek() + by!);
      }}
    >
      {still}
      {width > 0 && <Cursor x={((at.value - from) / (to - from)) * width} height={height - AXIS} />}
    </div>
  );
}

const Cursor = ({ x, height }: { x: number; height: number }) => (
  <div class="cursor" style={{ height: `${height}px`, transform: `translateX(${x.toFixed(1)}px)` }} />
);

interface StillProps {
  night: Night;
  width: number;
  height: number;
  drawn: ReturnType<typeof drawStrips>;
}

/** All that does not move. */
function Still({ night, width, height, drawn }: StillProps) {
  const { from, to } = span(night);
  const x = (time: number) => ((Math.min(to, Math.max(from, time)) - from) / (to - from)) * width;
  const bottom = height - AXIS;
  const offset = -new Date(from * 1000).getTimezoneOffset() * 60;
  const figure = { distance: length, wind: speed, depth: (metres: number) => length(metres, true) };
  return (
    <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <defs>
        <pattern
          id="dead-time"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path class="hatching" d="M0 0V6" />
        </pattern>
      </defs>
      {deadTimes(night.gaps).map((gap) => (
        <rect
          key={`${gap.kind}${gap.from}`}
          class="dead"
          x={x(gap.from)}
          width={Math.max(1.5, x(gap.to ?? to) - x(gap.from))}
          height={bottom}
        />
      ))}
      {drawn.map(({ key, line, limit }, i) => (
        <g key={key} class={`strip ${key}`} transform={`translate(0 ${ALERTS + i * (STRIP + APART)})`}>
          <path class="ground" d={`M0 ${STRIP}H${width}`} />
          {limit && <path class="limit" d={limit} />}
          <path class="line" d={line} />
        </g>
      ))}
      {night.alerts.map((alert) =>
        alert.priority === 'caution' ? null : (
          <g
            key={alert.id}
            class={`raised ${alert.priority}`}
            transform={`translate(${x(loudAt(alert)).toFixed(1)} 0)`}
          >
            <path class="stem" d={`M0 13V${bottom}`} />
            <path
              class="head"
              d={alert.priority === 'alarm' ? 'M0 1L7 14H-7Z' : 'M0 3A5 5 0 0 1 0 13A5 5 0 0 1 0 3Z'}
            />
          </g>
        ),
      )}
      {drawn.map(({ key, most }, i) => (
        <text key={key} x="4" y={ALERTS + i * (STRIP + APART) - 2}>
          {`${words.strips[key]}, up to ${joined(figure[key](most))}`}
        </text>
      ))}
      {ticks(from, to, width, offset).map((time) => (
        <text
          key={time}
          class="tick"
          x={Math.min(width - 18, Math.max(18, x(time)))}
          y={height - 4}
          text-anchor="middle"
        >
          {hour(time)}
        </text>
      ))}
    </svg>
  );
}

function Controls({ night }: { night: Night }) {
  const jump = (way: 1 | -1) => {
    const to = alertBeside(night, at.value, way);
    return {
      disabled: to === undefined,
      onClick: () => {
        playing.value = 0;
        if (to !== undefined) go(to);
      },
    };
  };
  const speed = useSignal(60);
  const isPlaying = playing.value > 0;
  return (
    <div class="controls">
      <button type="button" aria-label={words.before} {...jump(-1)}>
        {words.beforeShort}
      </button>
      <button type="button" aria-label={words.next} {...jump(1)}>
        {words.nextShort}
      </button>
      <button
        type="button"
        class="play"
        onClick={() => {
          const { from, to } = span(night);
          if (!isPlaying && at.peek() >= to) go(from);
          playing.value = isPlaying ? 0 : speed.value;
        }}
      >
        {isPlaying ? words.pause : words.play}
      </button>
      <select
        aria-label={words.faster}
        value={speed.value}
        onChange={(event) => {
          speed.value = Number(event.currentTarget.value);
          if (isPlaying) playing.value = speed.value;
        }}
      >
        {SPEEDS.map((times) => (
          <option key={times} value={times}>
            {words.times(times)}
          </option>
        ))}
      </select>
    </div>
  );
}
