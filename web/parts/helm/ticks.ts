import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { shown, trusted } from '../../live.ts';
import { visible } from '../../phone/visible.ts';
import { steeringOf } from './steer.ts';
import { sounded, TICKS } from './voices.ts';

/** Ticks to steer by, when switched on: the farther off, the quicker; silent while the bow is near enough. */
export const ticking = signal(false);

/** Seconds between ticks at the edge of the dead band and at the end of the scale, and between two of "not known". */
const SLOWEST = 1.2;
const QUICKEST = 0.3;
const UNKNOWN = 4;
const LOOK_MS = 40;

type Tick = { voice: keyof typeof TICKS; every: number };

/** What is to be heard now; undefined: nothing, she is steady or free. */
export function tickNow(): Tick | undefined {
  const state = shown.peek();
  if (!state?.weigh || !trusted.peek()) return { voice: 'unknown', every: UNKNOWN };
  if (state.weigh.brokenOut) return undefined;
  const steering = steeringOf(state);
  if (steering?.turn === undefined) return { voice: 'unknown', every: UNKNOWN };
  const { side, turn, band, full } = steering;
  if (side === 'steady' || side === undefined) return undefined;
  const share = Math.min(1, (Math.abs(turn) - band) / (full - band));
  return { voice: side, every: SLOWEST + share * (QUICKEST - SLOWEST) };
}

/** While the page that uses it is shown, in view, and ticks are on. */
export function useTicks(): void {
  const on = ticking.value && visible.value;
  useEffect(() => {
    if (!on) return;
    let last: { voice: string; at: number } | undefined;
    const timer = setInterval(() => {
      const tick = tickNow();
      const now = performance.now();
      if (!tick) {
        last = undefined;
        return;
      }
      if (last?.voice === tick.voice && now - last.at < 1000 * tick.every) return;
      if (sounded(TICKS[tick.voice])) last = { voice: tick.voice, at: now };
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, [on]);
}
