/** What an input tells. No time: the daemon stamps it. */
export interface Sinks {
  /** A line that is not blank, as it came, one character a byte. */
  line(id: string, text: string): void;
  /** The input appeared or vanished; `detail` says in words what happened. */
  link(id: string, up: boolean, detail: string): void;
  /** So many bytes came without line end and without the start of a sentence, and were discarded. */
  overlong(id: string, bytes: number): void;
  /** A serial port listens at this baud rate, given or found. */
  rate?(id: string, baud: number): void;
}

/** One input. It starts at once, tries for ever, and never throws. */
export interface Intake {
  readonly id: string;
  start(): void;
  /** Resolves when the port or socket is closed; nothing is told afterwards. */
  stop(): Promise<void>;
}

export interface Link {
  tell(up: boolean, detail: string): void;
  /** Tells nothing any more. */
  mute(): void;
}

/** Tells changes only: an input that fails in the same way every few seconds for a whole night is told once. */
export function createLink(id: string, sinks: Sinks): Link {
  let last: { up: boolean; detail: string } | undefined;
  let isMute = false;
  return {
    tell(up, detail) {
      if (isMute || (last?.up === up && last.detail === detail)) return;
      last = { up, detail };
      sinks.link(id, up, detail);
    },
    mute() {
      isMute = true;
    },
  };
}

/** What went wrong with a port or socket, in words that say what to do where that is known. */
export function describeFault(error: unknown): string {
  const { code, message } = error as { code?: string; message?: string };
  return (code && FAULTS[code]) || message || String(error);
}

const FAULTS: Record<string, string> = {
  EADDRINUSE: 'the port is taken by another program on this computer',
  EADDRNOTAVAIL: 'this computer has no such address',
  EACCES: 'permission denied',
  ECONNREFUSED: 'it refuses the connection (is its server switched on?)',
  ECONNRESET: 'the connection was reset',
  EHOSTUNREACH: 'it cannot be reached',
  ENETUNREACH: 'its network cannot be reached',
  ENOTFOUND: 'its name is not known',
  EAI_AGAIN: 'its name cannot be looked up now',
  EPIPE: 'the connection is broken',
  ETIMEDOUT: 'it does not answer',
};
