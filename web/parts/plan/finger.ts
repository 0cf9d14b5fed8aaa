import { useRef } from 'preact/hooks';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import { draft, drawing, type Swept, sectorOf, sweep } from '../around/draft.ts';
import type { Frame } from './frame.ts';

/** A finger on the plan draws a sector about the mark, while drawing is on; else the plan takes no touch. */
export function useFinger(frame: Frame | undefined, mark: LatLon | undefined) {
  const swept = useRef<Swept | undefined>(undefined);
  if (!drawing.value || !frame || !mark) return {};
  const centre = frame.toPixels(mark);
  const spot = (event: PointerEvent) => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    const x = event.clientX - box.left - frame.width / 2 - centre.x;
    const y = event.clientY - box.top - frame.height / 2 - centre.y;
    return {
      bearing: ((Math.atan2(x, -y) * 180) / Math.PI + 360) % 360,
      distance: Math.hypot(x, y) / frame.scale,
    };
  };
  return {
    class: 'takes-finger',
    onPointerDown(event: PointerEvent) {
      (event.currentTarget as Element).setPointerCapture(event.pointerId);
      swept.current = sweep(undefined, spot(event));
    },
    onPointerMove(event: PointerEvent) {
      if (!swept.current) return;
      swept.current = sweep(swept.current, spot(event));
      draft.value = sectorOf(swept.current) ?? draft.value;
    },
    onPointerUp() {
      swept.current = undefined;
      if (draft.value) drawing.value = false;
    },
  };
}
