import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { words } from '../words.ts';

const HOLD_MS = 1000;
const PRESS_AGAIN_MS = 5000;

interface Props {
  children: ComponentChildren;
  disabled?: boolean;
  onHeld: () => void;
}

/**
 * A button that acts only when held for a second, by finger or by key: what it does must not happen to a hand in the dark.
 * Assistive techniques that can only press are asked to press twice.
 */
export function Hold({ children, disabled, onHeld }: Props) {
  const [state, setState] = useState<'idle' | 'holding' | 'asked'>('idle');
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const byHand = useRef(false);
  const stop = () => clearTimeout(timer.current);
  useEffect(() => stop, []);

  const start = () => {
    if (disabled) return;
    byHand.current = true;
    stop();
    setState('holding');
    timer.current = setTimeout(() => {
      setState('idle');
      onHeld();
    }, HOLD_MS);
  };
  const release = () => {
    if (state !== 'holding') return;
    stop();
    setState('idle');
  };
  const press = () => {
    if (byHand.current) {
      byHand.current = false;
      return;
    }
    stop();
    if (state === 'asked') {
      setState('idle');
      onHeld();
      return;
    }
    setState('asked');
    timer.current = setTimeout(() => setState('idle'), PRESS_AGAIN_MS);
  };
  const isPress = (event: KeyboardEvent) => event.key === 'Enter' || event.key === ' ';

  return (
    <button
      type="button"
      class={state === 'holding' ? 'hold holding' : 'hold'}
      disabled={disabled}
      onPointerDown={start}
      onPointerUp={release}
      onPointerLeave={release}
      onPointerCancel={release}
      onKeyDown={(event) => {
        if (!isPress(event)) return;
        event.preventDefault();
        if (!event.repeat) start();
      }}
      onKeyUp={(event) => {
        if (isPress(event)) release();
      }}
      onBlur={release}
      onClick={press}
      onContextMenu={(event) => event.preventDefault()}
    >
      <span>{children}</span>
      <small>{state === 'asked' ? words.mark.pressAgain : words.mark.hold}</small>
    </button>
  );
}
