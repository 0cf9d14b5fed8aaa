/** A part of the daemon that can fail by itself while the others go on. */
export type Room = 'engine' | 'journal' | 'pages' | 'inputs' | 'watch-keeping' | 'process';

/** Faults of hawse itself: each room's is told once, holds while it goes on, and ends when the room has been well for a while. */
export interface Mishaps {
  met(room: Room, error: unknown): void;
  /** Ends what has passed; called now and then. */
  look(): void;
}

export interface MishapPorts {
  /** The `daemon` fault of a room as it is now; never throws. */
  tell(room: Room, raised: boolean, text: string): void;
  /** Every single one, for the log. */
  log(room: Room, error: unknown): void;
  /** Seconds on a clock that never steps. */
  monotonic(): number;
}

/** A room that has had no mishap for so long is well again, seconds (our choice). */
const WELL_AFTER = 600;
/** Of a room that fails at every sentence the log gets so many lines, then none until it has been well. */
const LOGGED = 20;

const WHAT: Record<Room, string> = {
  engine: 'The engine met an error of its own',
  journal: 'The log met an error of its own',
  pages: 'What serves the pages met an error of its own',
  inputs: 'What listens to the instruments met an error of its own',
  'watch-keeping': 'A duty of the daemon met an error of its own',
  process: 'hawse met an error that nobody expected',
};

/** A broken invariant is an alarm, not a log line, and never ends the watch. */
export function createMishaps({ tell, log, monotonic }: MishapPorts): Mishaps {
  const rooms = new Map<Room, { last: number; count: number }>();
  return {
    met(room, error) {
      const known = rooms.get(room);
      const count = (known?.count ?? 0) + 1;
      rooms.set(room, { last: monotonic(), count });
      if (count <= LOGGED) log(room, error);
      if (known) return;
      const why = (error as Error | undefined)?.message ?? String(error);
      tell(room, true, `${WHAT[room]} (${why}). Keep watch by other means and restart it.`);
    },
    look() {
      for (const [room, { last, count }] of rooms) {
        if (monotonic() - last < WELL_AFTER) continue;
        rooms.delete(room);
        tell(room, false, `${WHAT[room]} ${count} times; not in the last ${WELL_AFTER / 60} minutes.`);
      }
    },
  };
}
