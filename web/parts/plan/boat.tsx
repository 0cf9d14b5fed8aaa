import type { State } from '../../../shared/state.ts';
import { joined, length } from '../../format.ts';
import type { Frame } from './frame.ts';
import { HullDrawing } from './hull.tsx';

/** Shorter than this on the screen, the line to the mark carries no label, pixels. */
const ROOM_FOR_LABEL = 70;

/** The boat where she is: cable line to the mark with its length, hull to scale, and a soft disc for what is not known. */
export function BoatOnPlan({ state: { boat, vessel, watch }, frame }: { state: State; frame: Frame }) {
  const { roller, heading } = vessel;
  if (!roller) return null;
  const at = frame.toPixels(roller.value);
  const mark = watch.mark && frame.toPixels(watch.mark);
  const line = mark && Math.hypot(at.x - mark.x, at.y - mark.y);
  return (
    <>
      {mark && <line class="lead" x1={mark.x} y1={mark.y} x2={at.x} y2={at.y} />}
      <circle class="soft-place" cx={at.x} cy={at.y} r={2 * roller.sigma * frame.scale} />
      {heading ? (
        <HullDrawing boat={boat} at={at} heading={heading.value} scale={frame.scale} />
      ) : (
        <circle class="roller" cx={at.x} cy={at.y} r="6" />
      )}
      <circle class="roller" cx={at.x} cy={at.y} r="2.5" />
      {mark && watch.distance && line !== undefined && line > ROOM_FOR_LABEL && (
        <text
          class="lead-label"
          x={(at.x + mark.x) / 2}
          y={(at.y + mark.y) / 2}
          dy="0.35em"
          text-anchor="middle"
        >
          {joined(length(watch.distance.value))}
        </text>
      )}
    </>
  );
}
