import type { Alert } from '../shared/alerts/alert.ts';
import { list } from '../shared/alerts/alerts.ts';
import type { EngineState } from '../shared/engine.ts';
import type { Answer } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import { wouldWake } from '../shared/phone.ts';
import type { PageView } from '../shared/state.ts';
import { clockOffset } from '../shared/vessel/time.ts';
import type { OutputConfig } from './raise/outputs.ts';
import { createRaise, type Raise } from './raise/raise.ts';

type Fault = Omit<Extract<Input, { kind: 'fault' }>, 'at'>;

export interface HornPorts {
  outputs: readonly OutputConfig[];
  engine(): EngineState;
  now(): number;
  /** Open pages. */
  pages(): PageView[];
  send(fault: Fault): void;
  command(act: 'acknowledge' | 'silence', alert: string, by: string): Promise<Answer>;
  changed(): void;
  /** What came from the bus and could not be followed, and what broke. */
  remark(text: string): void;
  /** What `broken` says: the engine cannot be trusted to raise alerts any more. */
  broken(): string | undefined;
}

/** The horn as the daemon needs it. */
export type Horn = Pick<Raise, 'test' | 'views' | 'stop'> & { look(): void };

const SUBJECT = 'horn:';

/** Ties the room `raise` to the engine: its alerts go out, orders from the bus come in, its failures are alerts themselves. */
export function createHorn({
  outputs,
  engine,
  now,
  pages,
  send,
  command,
  broken,
  ...ports
}: HornPorts): Horn {
  const held = engine().faults.flatMap(({ subject }) =>
    subject?.startsWith(SUBJECT) ? [subject.slice(SUBJECT.length)] : [],
  );
  const tell = (id: string, raised: boolean, text: string) =>
    send({ kind: 'fault', alert: 'daemon', subject: SUBJECT + id, raised, priority: 'warning', text });
  for (const id of held)
    if (!outputs.some((output) => output.id === id)) tell(id, false, `There is no horn "${id}" any more.`);

  const raise = createRaise(outputs, {
    boat: engine().settings.boat.name,
    now,
    failing: held,
    fault: tell,
    async obey(act, alert, by) {
      const answer = await command(act, alert, by);
      return answer.ok ? undefined : answer.why;
    },
    ...ports,
  });

  /** An engine that has broken may not be able to say so: the horn says it on its own. */
  function alerts(): Alert[] {
    const text = broken();
    const told = text === undefined ? list(engine().alerts) : readable(engine);
    const isSaid = told.some(({ kind, text: words }) => kind === 'daemon' && words === text);
    if (text === undefined || isSaid) return told;
    const own = {
      id: 'daemon.0',
      kind: 'daemon',
      priority: 'alarm',
      state: 'active-unacknowledged',
    } as const;
    return [{ ...own, text, since: now(), stateSince: now() }, ...told];
  }

  return {
    ...raise,
    look() {
      if (outputs.length === 0) return;
      const at = now();
      const offset = clockOffset(engine().vessel.time, at) ?? 0;
      const phoneWakes = pages().some((page) => page.mayAnswer && wouldWake(page));
      raise.look({ alerts: alerts(), at, clockOffset: offset }, phoneWakes);
    },
  };
}

function readable(engine: () => EngineState): Alert[] {
  try {
    return list(engine().alerts);
  } catch {
    return [];
  }
}
