import { shown, track } from '../../live.ts';
import { Dial } from './dial.tsx';
import { SideNow } from './sideNow.tsx';
import { Strip } from './strip.tsx';

/** How she lies: from the side, in wind and stream, and in the last hours. */
export function Lying() {
  const state = shown.value;
  if (!state) return null;
  return (
    <div class="lying">
      <SideNow state={state} />
      <Dial state={state} points={track.value} />
      <Strip points={track.value} circle={state.watch.circle?.radius} />
    </div>
  );
}
