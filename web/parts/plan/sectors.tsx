import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { State } from '../../../shared/state.ts';
import { unit } from '../../projection.ts';
import { draft } from '../around/draft.ts';
import type { Frame } from './frame.ts';

interface Part {
  centre: LatLon;
  from: number;
  to: number;
  beyond: number;
  name?: string | undefined;
}

/** Parts of the water that she must not enter, hatched; and the one that is being drawn. */
export function Sectors({ state: { watch }, frame }: { state: State; frame: Frame }) {
  const drawn = draft.value;
  return (
    <g class="sectors">
      <defs>
        <pattern id="hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V8" />
        </pattern>
      </defs>
      {(watch.sectors ?? []).map((sector, index) => (
        <Area key={String(index)} part={{ ...sector, centre: sector }} frame={frame} />
      ))}
      {drawn && watch.mark && <Area part={{ ...drawn, centre: watch.mark }} frame={frame} drawing />}
    </g>
  );
}

function Area({ part, frame, drawing }: { part: Part; frame: Frame; drawing?: boolean }) {
  const { x, y } = frame.toPixels(part.centre);
  const inner = Math.max(1, part.beyond * frame.scale);
  const outer = Math.hypot(frame.width, frame.height) + inner;
  const width = (((part.to - part.from) % 360) + 360) % 360 || 360;
  const large = width > 180 ? 1 : 0;
  const [a, b] = [unit(part.from), unit(part.from + Math.min(width, 359.9))];
  const at = (out: { x: number; y: number }, r: number) =>
    `${(x + out.x * r).toFixed(1)} ${(y + out.y * r).toFixed(1)}`;
  const d = `M${at(a, inner)}A${inner} ${inner} 0 ${large} 1 ${at(b, inner)}L${at(b, outer)}A${outer} ${outer} 0 ${large} 0 ${at(a, outer)}Z`;
  const middle = unit(part.from + width / 2);
  return (
    <g class={drawing ? 'sector drawing' : 'sector'}>
      <path d={d} />
      {part.name && (
        <text x={x + middle.x * (inner + 24)} y={y + middle.y * (inner + 24)} text-anchor="middle">
          {part.name}
        </text>
      )}
    </g>
  );
}
