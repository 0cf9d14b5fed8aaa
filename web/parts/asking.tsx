import { useState } from 'preact/hooks';
import { mayDo, type Role } from '../../shared/access.ts';
import type { Outcome } from '../commands.ts';
import { role } from '../live.ts';
import { follow } from '../router.ts';
import { accessWords } from '../words/access.ts';

/**
 * A command under way: `busy` while it runs, then what came of it in words. On a screen whose role does not suffice it is
 * busy always, so that its button cannot be pressed: the reason stands beside it, not after the fact.
 */
export interface Asking {
  busy: boolean;
  trouble: Outcome;
  done: boolean;
  run(command: () => Promise<Outcome>): Promise<void>;
  say(trouble: string): void;
}

export function useAsking(needed: Role = 'command'): Asking {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Outcome>();
  const [done, setDone] = useState(false);
  return {
    busy: busy || !mayDo(role.value, needed),
    trouble,
    done,
    async run(command) {
      setBusy(true);
      setTrouble(undefined);
      setDone(false);
      const outcome = await command();
      setBusy(false);
      setTrouble(outcome);
      setDone(outcome === undefined);
    },
    say(text) {
      setDone(false);
      setTrouble(text);
    },
  };
}

/** Where the answer to a command is read. */
export function Told({ asking, done }: { asking: Asking; done?: string }) {
  return (
    <p class={asking.trouble ? 'told trouble' : 'told'} role="status">
      {asking.trouble ?? (asking.done ? done : undefined)}
    </p>
  );
}

/** Stands where a screen whose role does not suffice would otherwise offer in vain. */
export function LookOnly({ needed = 'command' }: { needed?: Role }) {
  if (mayDo(role.value, needed)) return null;
  return (
    <p class="care">
      {accessWords.lookOnly(role.value)}{' '}
      <a href="/phones" onClick={follow}>
        {accessWords.pairHere}
      </a>
    </p>
  );
}
