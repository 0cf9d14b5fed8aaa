import { effect } from '@preact/signals';
import { at, go, opened, playing } from './opened.ts';
import { span } from './strips.ts';

/** Moves the moment on while it is played, with the screen's own frames. To be called while the page is there. */
export const keepPlaying = (): (() => void) =>
  effect(() => {
    const times = playing.value;
    const now = opened.value;
    if (times === 0 || !now) return;
    const { to } = span(now.night);
    let last = performance.now();
    let frame = requestAnimationFrame(function on(ms) {
      // A page in the background gets no frames: the night waits with it.
      const passed = Math.min(0.25, Math.max(0, ms - last) / 1000);
      last = ms;
      go(at.peek() + passed * times);
      if (at.peek() >= to) playing.value = 0;
      else frame = requestAnimationFrame(on);
    });
    return () => cancelAnimationFrame(frame);
  });
