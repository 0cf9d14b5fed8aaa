import { useRef } from 'preact/hooks';
import { mayCommand } from '../../live.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { sendStop } from './sending.ts';
import { FateSign, fateOf } from './target.tsx';

/** The whole bottom edge. It acts when the finger comes down: who lets go later has lost that time. */
export function Stop() {
  const byHand = useRef(false);
  const fate = fateOf('stop');
  return (
    <button
      type="button"
      class={`target stop ${fate?.is ?? ''}`}
      disabled={!mayCommand.value}
      data-signal="stop"
      onPointerDown={() => {
        byHand.current = true;
        sendStop();
      }}
      onClick={() => {
        // By key, or by a technique that only clicks; the click that follows a finger is the same STOP.
        if (!byHand.current) sendStop();
        byHand.current = false;
      }}
      onContextMenu={(event) => event.preventDefault()}
    >
      <span>{words.stop}</span>
      <FateSign fate={fate} />
    </button>
  );
}
