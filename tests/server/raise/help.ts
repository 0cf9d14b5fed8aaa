import type { Health } from '../../../server/raise/output.ts';
import type { Alert, AlertKind } from '../../../shared/alerts/alert.ts';

let raised = 0;
/** An alarm of that kind, not answered yet. */
export function alertOf(kind: AlertKind, told: Partial<Alert> = {}): Alert {
  const since = told.stateSince ?? 0;
  return {
    id: `${kind}.${++raised}`,
    kind,
    priority: 'alarm',
    state: 'active-unacknowledged',
    text: 'The roller is 46.3 m from the mark; the circle is 42.0 m.',
    since,
    stateSince: since,
    ...told,
  };
}

/** Keeps what an output tells of its health; `next` waits for the next word. */
export function listen(): Health & { words: string[]; next(): Promise<string> } {
  const words: string[] = [];
  let waiting: ((word: string) => void)[] = [];
  const say = (word: string) => {
    words.push(word);
    for (const tell of waiting.splice(0)) tell(word);
    waiting = [];
  };
  return {
    words,
    ok: () => say('ok'),
    failed: (why) => say(`failed: ${why}`),
    next: () => new Promise((resolve) => void waiting.push(resolve)),
  };
}

/** Looks again and again until it is so; the test's own limit ends an endless wait. */
export async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise((resolve) => setTimeout(resolve, 10));
}
