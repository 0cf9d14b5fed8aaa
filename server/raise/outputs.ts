import type { Priority } from '../../shared/alerts/alert.ts';

/** How long an alert must have been without an answer before an output tells it, seconds; absent: that output never does. */
type After = { readonly [P in Priority]?: number | undefined };

interface Common {
  id: string;
  after: After;
  /** Alarms are told at once while no armed phone would wake anybody. */
  atOnceWithoutPhone: boolean;
}

/** A program and its arguments. No shell reads them. */
export type Argv = readonly [string, ...string[]];

/** A relay or a loudspeaker: one command that sounds while it runs, or one that switches on and one that switches off. */
export type CommandOutput = Common & { kind: 'command' } & (
    | { run: Argv }
    | { on: Argv; off: Argv; limit: number }
  );

/** Who may answer over sentences: only what comes from this port. */
interface Accept {
  /** UDP port to listen on. */
  port: number;
  /** Datagrams from other addresses are ignored. */
  from: string;
}

interface Sentences extends Common {
  talker: string;
  manufacturer: string;
  formats: readonly ('ALR' | 'ALF')[];
}

export type SerialOutput = Sentences & { kind: 'serial'; path: string; baud: number; accept: boolean };
export type UdpOutput = Sentences & {
  kind: 'udp';
  host: string;
  port: number;
  accept?: Accept | undefined;
};

export interface WebhookOutput extends Common {
  kind: 'webhook';
  url: string;
  headers: Readonly<Record<string, string>>;
  /** For each try, seconds. */
  limit: number;
  /** Pauses between tries, seconds. */
  retries: readonly number[];
}

export type OutputConfig = CommandOutput | SerialOutput | UdpOutput | WebhookOutput;
