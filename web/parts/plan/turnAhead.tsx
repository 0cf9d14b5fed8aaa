import type { State } from '../../../shared/state.ts';
import type { Frame } from './frame.ts';
import { HullDrawing } from './hull.tsx';

/** Where she will probably lie when the stream has turned, and the way there: an estimate, drawn open and dashed. */
export function TurnAhead({
  state: { streamTurn, watch, boat, vessel },
  frame,
}: {
  state: State;
  frame: Frame;
}) {
  const lies = streamTurn?.lies;
  const { mark } = watch;
  if (!lies?.roller || !mark || !vessel.roller) return null;
  const [anchor, now, then] = [mark, vessel.roller.value, lies.roller].map(frame.toPixels) as [Px, Px, Px];
  const radius = Math.hypot(then.x - anchor.x, then.y - anchor.y);
  // Clockwise on the screen when the cross product says so: the shorter way round.
  const cross = (now.x - anchor.x) * (then.y - anchor.y) - (now.y - anchor.y) * (then.x - anchor.x);
  return (
    <g class="turn-ahead">
      <path d={`M${now.x} ${now.y}A${radius} ${radius} 0 0 ${cross > 0 ? 1 : 0} ${then.x} ${then.y}`} />
      <HullDrawing boat={boat} at={then} heading={lies.heading.value} scale={frame.scale} />
    </g>
  );
}

interface Px {
  x: number;
  y: number;
}
