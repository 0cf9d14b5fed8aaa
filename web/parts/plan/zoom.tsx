import { signal } from '@preact/signals';
import { aroundWords } from '../../words/around.ts';

/** How many times as far as needed the plan shows: her own circle, the neighbours, the anchorage. */
const STEPS = [1, 2.5, 6];
export const zoom = signal(1);

export function Zoom() {
  const index = STEPS.indexOf(zoom.value);
  const go = (by: number) => () => {
    zoom.value = STEPS[index + by] ?? zoom.value;
  };
  return (
    <div class="zoom">
      <button type="button" aria-label={aroundWords.zoom.closer} disabled={index === 0} onClick={go(-1)}>
        +
      </button>
      <button
        type="button"
        aria-label={aroundWords.zoom.wider}
        disabled={index === STEPS.length - 1}
        onClick={go(1)}
      >
        −
      </button>
    </div>
  );
}
