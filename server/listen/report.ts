import type { InputView } from '../../shared/state.ts';
import type { Duty } from './duties.ts';
import type { SentenceHeard } from './tally.ts';

/** What is listened to. */
export type Source = { id: string } & (
  | { serial: string; baud: number | 'auto' }
  | { udp: number }
  | { tcp: string }
);

/** A serial port of this computer, and whether this run listens to it. */
export interface PortReport {
  path: string;
  what?: string;
  isListened: boolean;
  /** Why it cannot be had, and what to do. */
  fault?: string;
  cure?: string;
}

export interface InputReport extends InputView {
  /** The port, e.g. /dev/ttyUSB0, UDP 10110. */
  port: string;
  /** Baud rate, once it is known. */
  baud?: number;
  /** What to do when nothing, or nothing good, comes. */
  advice?: string;
}

/** All that `hawse listen` found; with --json just this is printed. */
export interface ListenReport {
  seconds: number;
  ports: PortReport[];
  inputs: InputReport[];
  sentences: SentenceHeard[];
  duties: Duty[];
}

/** One input with what to do about it. `heard`: what the engine has counted on it, undefined before anything came. */
export function inputReport(
  source: Source,
  heard: InputView | undefined,
  baud: number | undefined,
  seconds: number,
): InputReport {
  const blank = { sentences: 0, rejected: { checksum: 0, malformed: 0, unknown: 0 } };
  const view = { up: false, detail: 'not open yet', ...blank, ...heard, id: source.id };
  const advice = adviceOn(source, view, seconds);
  return {
    ...view,
    port: portOf(source),
    ...(baud === undefined ? {} : { baud }),
    ...(advice === undefined ? {} : { advice }),
  };
}

export function portOf(source: Source): string {
  if ('serial' in source) return source.serial;
  return 'udp' in source ? `UDP ${source.udp}` : `TCP ${source.tcp}`;
}

/** A gateway or instrument that speaks once in some seconds must not be called silent, seconds. */
const PATIENCE = 5;
/** Of all that comes; less is what any cable has now and then. */
const MUCH = 0.2;

function adviceOn(source: Source, input: InputView, seconds: number): string | undefined {
  const { checksum, malformed, unknown } = input.rejected;
  const refused = checksum + malformed;
  const all = input.sentences + unknown + refused;
  if (all === 0) return seconds < PATIENCE ? undefined : silence(source, input);
  if (refused <= all * MUCH) return undefined;
  if (input.lastRefusal?.includes('does not end with a checksum'))
    return 'it sends no checksums: say checksumOptional: true for it in hawse.yaml when it has none to give';
  if ('udp' in source) return 'sentences arrive torn: the gateway must send whole lines in a datagram';
  return 'noise or two talkers on one wire: one talker a wire; see to plugs, earth and baud rate';
}

function silence(source: Source, { up: isUp, detail }: InputView): string | undefined {
  // While its baud rate is looked for a port is open and not yet an input.
  if ('serial' in source)
    return isUp || detail.includes('is open')
      ? 'nothing readable arrives: is the instrument switched on? Swap the two wires A and B; try --baud 4800 and 38400'
      : undefined;
  if ('udp' in source)
    return isUp
      ? `nothing arrives: let the gateway send to this computer, or broadcast, on port ${source.udp}; a firewall may hold it back`
      : 'is hawse keep running? Its page "Instruments" shows the same; stop it to listen here';
  return isUp ? 'connected, and silent: does the gateway send NMEA 0183 on that port?' : undefined;
}

/** The section `instruments` that this run would be in hawse.yaml: what brought good sentences. Empty: nothing did. */
export function instrumentsYaml(sources: readonly Source[], inputs: readonly InputReport[]): string[] {
  const good = sources.flatMap((source) => {
    const input = inputs.find(({ id }) => id === source.id);
    if (!input || input.sentences === 0) return [];
    if ('serial' in source) return [`  - serial: ${source.serial}`, `    baud: ${input.baud ?? source.baud}`];
    return ['udp' in source ? `  - udp: ${source.udp}` : `  - tcp: ${JSON.stringify(source.tcp)}`];
  });
  return good.length === 0 ? [] : ['instruments:', ...good];
}
