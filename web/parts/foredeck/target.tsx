import type { ComponentChildren } from 'preact';
import { mayCommand } from '../../live.ts';
import { signalInWords } from '../../words/foredeck.ts';
import { type Fate, send, sent } from './sending.ts';

interface Props {
  signal: string;
  class?: string;
  children?: ComponentChildren;
}

/** One signal to tap. It wears the fate of its last sending as shape, not only as colour. */
export function Target({ signal, class: more = '', children }: Props) {
  const fate = fateOf(signal);
  return (
    <button
      type="button"
      class={`target ${more} ${fate?.is ?? ''}`.trim()}
      disabled={!mayCommand.value}
      aria-label={signalInWords(signal)}
      data-signal={signal}
      onClick={() => void send(signal)}
    >
      <span>{children ?? signalInWords(signal)}</span>
      <FateSign fate={fate} />
    </button>
  );
}

export const fateOf = (signal: string): Fate | undefined =>
  sent.value.find((one) => one.signal === signal)?.fate;

/** Three dots: on its way. A tick: the helm has seen it. A cross: it has not. */
export function FateSign({ fate }: { fate: Fate | undefined }) {
  if (!fate) return null;
  return (
    <svg class="fate" viewBox="0 0 24 24" aria-hidden="true">
      {fate.is === 'sending' && <path d="M4 12h.01M12 12h.01M20 12h.01" />}
      {fate.is === 'seen' && <path d="M3 13L9 19L21 5" />}
      {fate.is === 'missed' && <path d="M4 4L20 20M20 4L4 20" />}
    </svg>
  );
}
