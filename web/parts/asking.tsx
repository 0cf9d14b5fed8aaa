import { useState } from 'preact/hooks';
import type { Outcome } from '../commands.ts';
import { mayCommand } from '../live.ts';
import { words } from '../words.ts';

/** A command under way: `busy` while it runs, then what came of it in words. */
export interface Asking {
  busy: boolean;
  trouble: Outcome;
  done: boolean;
  run(command: () => Promise<Outcome>): Promise<void>;
  say(trouble: string): void;
}

export function useAsking(): Asking {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Outcome>();
  const [done, setDone] = useState(false);
  return {
    busy,
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

/** Stands where a screen without the boat's key would otherwise offer in vain. */
export function LookOnly() {
  return mayCommand.value ? null : <p class="care">{words.lookOnly}</p>;
}
