import type { EngineState } from '../shared/engine.ts';
import type { Input } from '../shared/input.ts';
import { createDiskWatch } from './disk-watch.ts';
import { downtime, isTold, type LastRun, RESTART } from './downtime.ts';
import { createClockWatch, type HostClocks, SLEPT, STEPPED } from './host-clock.ts';
import type { Journal } from './journal/journal.ts';
import type { Policy } from './journal/retention.ts';
import { createMishaps, type Room } from './mishaps.ts';
import type { Timeline } from './timeline.ts';

type Fault = Omit<Extract<Input, { kind: 'fault' }>, 'at'>;

export interface SelfCarePorts {
  engine(): EngineState;
  journal: Pick<Journal, 'freeBytes' | 'tidy'>;
  policy?: Policy | undefined;
  timeline: Timeline;
  /** The computer's clocks; absent where the timeline does not follow them (a rehearsal, a test). */
  clocks?: HostClocks | undefined;
  send(fault: Fault): void;
  log: { error(what: object, text: string): void; warn(what: object, text: string): void };
}

/** What the daemon notices of itself: its own errors, a restart, the computer's clock and sleep, room on the disk. All of it is told. */
export interface SelfCare {
  /** An exception where none should be. Never throws. */
  met(room: Room, error: unknown): void;
  /** The engine cannot be trusted: what it met, while that holds. */
  broken(): string | undefined;
  /** Called once when people can be told. */
  begin(lastRun: LastRun): void;
  look(): void;
  lookAtDisk(): void;
}

const HOST = 'host';
const ROOM = 'room';
const MISHAP = 'error:';

export function createSelfCare(ports: SelfCarePorts): SelfCare {
  const { engine, journal, policy, timeline, clocks, send, log } = ports;
  let broken: string | undefined;
  let restartTold: number | undefined;

  // Not within the step in which it happened: a fault is an input of its own.
  const later = (fault: Omit<Fault, 'kind'>) => queueMicrotask(() => send({ kind: 'fault', ...fault }));

  const mishaps = createMishaps({
    monotonic: () => performance.now() / 1000,
    log: (room, err) => log.error({ err, room }, 'an error of hawse itself'),
    tell(room, raised, text) {
      if (room === 'engine') broken = raised ? text : undefined;
      later({ alert: 'daemon', subject: MISHAP + room, raised, priority: 'alarm', text });
    },
  });
  const disk = createDiskWatch({
    journal,
    policy,
    engine,
    now: timeline.now,
    tell: (raised, text) => later({ alert: 'disk', subject: ROOM, raised, priority: 'warning', text }),
    note: (text) => log.warn({ text }, 'the log'),
  });
  const clock = clocks && createClockWatch(clocks, { timeline, tell: later });

  /** Faults that the last run left behind and that this one knows nothing of. */
  function endLeftFaults(): void {
    for (const { kind, subject = HOST, priority } of engine().faults) {
      const isOurs =
        (kind === 'disk' && subject === ROOM) ||
        (kind === 'clock' && subject === STEPPED) ||
        (kind === 'daemon' &&
          (subject === HOST || subject === RESTART || subject === SLEPT || subject.startsWith(MISHAP)));
      if (isOurs && (kind === 'disk' || kind === 'clock' || kind === 'daemon'))
        later({
          alert: kind,
          subject,
          raised: false,
          priority,
          text: 'That was before hawse was started again.',
        });
    }
  }

  return {
    met: mishaps.met,
    broken: () => broken,
    begin(lastRun) {
      endLeftFaults();
      const fault = downtime(lastRun, timeline.now(), engine().watch.phase);
      if (!fault) return;
      restartTold = timeline.now();
      later({ alert: 'daemon', subject: RESTART, raised: true, ...fault });
    },
    look() {
      mishaps.look();
      clock?.look();
      if (restartTold !== undefined && isTold(engine(), restartTold, timeline.now())) {
        restartTold = undefined;
        later({
          alert: 'daemon',
          subject: RESTART,
          raised: false,
          priority: 'caution',
          text: 'The watch is on.',
        });
      }
    },
    lookAtDisk: () => void disk.look().catch((error) => mishaps.met('journal', error)),
  };
}
