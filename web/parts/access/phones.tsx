import { useEffect } from 'preact/hooks';
import { role, shown } from '../../live.ts';
import { accessWords } from '../../words/access.ts';
import { Origin } from '../origin.tsx';
import { keys, loadKeys } from './calls.ts';
import { KeyList } from './keyList.tsx';
import { OwnScreen } from './ownScreen.tsx';
import { PairOther } from './pairOther.tsx';
import { PairThis } from './pairThis.tsx';

const RELOAD_MS = 3000;

/** Who may do what: this screen, and for those who may command all others. */
export function Phones() {
  // Before the boat has told what this screen may do, it asks for nothing.
  const commands = shown.value !== undefined && role.value === 'command';
  useEffect(() => {
    keys.value = undefined;
    if (!commands) return;
    void loadKeys();
    // A code is used on another screen: this one must not go on showing it.
    const timer = setInterval(() => {
      if (keys.peek()?.pairing) void loadKeys();
    }, RELOAD_MS);
    return () => clearInterval(timer);
  }, [commands]);
  return (
    <main class="instruments phones">
      <h1 class="unseen">{accessWords.title}</h1>
      <OwnScreen />
      <Origin />
      {commands ? (
        <>
          <PairOther />
          <KeyList />
        </>
      ) : (
        <PairThis />
      )}
    </main>
  );
}
