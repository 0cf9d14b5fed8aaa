import { existsSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { commonBoat } from '../config/defaults.ts';
import { loadConfig } from '../config/load.ts';
import { type NamedInstrument, nameInstruments } from '../config/settings.ts';
import { portFault, serialPortsHere } from '../intake/ports.ts';
import { splitHostPort } from '../intake/tcp.ts';
import { instrumentsYaml, type ListenReport, type PortReport } from '../listen/report.ts';
import { show, showBriefly } from '../listen/show.ts';
import { type Ears, listen } from '../listening.ts';
import { numberOption, readArguments, UsageError } from './usage.ts';

const UDP_USUAL = 10_110;
const SECONDS = 20;

const HELP = `usage: hawse listen [--serial PATH] [--baud N|auto] [--udp PORT] [--tcp HOST:PORT] [--config FILE] [--seconds N] [--json]

Shows which serial ports there are, at which baud rate they speak, which sentences and quantities arrive, which duty each serves, and
what is missing, with what to do. Sends nothing. Without --serial, --udp and --tcp: the instruments of hawse.yaml when it is here,
otherwise every serial port and UDP port ${UDP_USUAL}.

  --serial PATH    listen to this device
  --baud N|auto    its baud rate (default: auto, found by listening)
  --udp PORT       listen to datagrams on this port
  --tcp HOST:PORT  connect to a gateway
  --config FILE    hawse.yaml for instruments and boat (default: ./hawse.yaml, when it is there)
  --seconds N      end after so long (default: on a terminal with Ctrl-C, otherwise ${SECONDS})
  --json           print one JSON object at the end, nothing else

Exit code 1: nothing that could be read has arrived.
`;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    {
      serial: { type: 'string' },
      baud: { type: 'string' },
      udp: { type: 'string' },
      tcp: { type: 'string' },
      config: { type: 'string' },
      seconds: { type: 'string' },
      json: { type: 'boolean' },
    },
    HELP,
  );
  if (!read) return 0;
  const { values } = read;
  const told = toldSources(values);
  const seconds = numberOption('seconds', values.seconds, 1, 86_400);
  const file = values.config ?? (existsSync('hawse.yaml') ? 'hawse.yaml' : undefined);
  const config = file === undefined ? undefined : loadConfig(file);

  const ports = await serialPortsHere();
  const configured = config ? nameInstruments(config.instruments) : [];
  const sources = told.length > 0 ? told : configured.length > 0 ? configured : everything(ports);
  const ears = listen(sources, config ?? commonBoat());
  const isLive = process.stdout.isTTY && !values.json;
  const ended = new AbortController();
  const stop = () => ended.abort();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, stop);
  const until = seconds ?? (isLive ? Number.POSITIVE_INFINITY : SECONDS);
  const screen = isLive ? liveScreen() : undefined;
  try {
    while (!ended.signal.aborted && ears.seconds() < until) {
      screen?.draw(await reportOf(ears, ports));
      const left = (until - ears.seconds()) * 1000;
      await wait(Math.max(0, Math.min(1000, left)), undefined, { signal: ended.signal }).catch(() => {});
    }
  } finally {
    screen?.close();
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.off(signal, stop);
  }
  const report = await reportOf(ears, ports);
  await ears.stop();
  if (values.json) process.stdout.write(`${JSON.stringify(report)}\n`);
  else {
    const yaml = configured.length > 0 && told.length === 0 ? [] : instrumentsYaml(sources, report.inputs);
    const lines = [`Listened for ${Math.round(report.seconds)} s.`, '', ...show(report)];
    if (yaml.length > 0) lines.push('', 'For hawse.yaml:', '', ...yaml);
    process.stdout.write(`${lines.join('\n')}\n`);
  }
  return report.inputs.some(({ sentences }) => sentences > 0) ? 0 : 1;
}

type Values = Partial<Record<'serial' | 'baud' | 'udp' | 'tcp', string>>;

/** What the call itself names; none: it leaves the choice to us. */
function toldSources({ serial, baud = 'auto', udp, tcp }: Values): NamedInstrument[] {
  const rate = baud === 'auto' ? baud : numberOption('baud', baud, 1200, 921_600)!;
  if (rate !== 'auto' && serial === undefined)
    throw new UsageError('--baud is for --serial: name the device, e.g. --serial /dev/ttyUSB0');
  const common = { checksumOptional: false };
  const sources: NamedInstrument[] = [];
  if (serial !== undefined) sources.push({ id: 'serial1', serial, baud: rate, ...common });
  const port = numberOption('udp', udp, 1, 65_535);
  if (port !== undefined) sources.push({ id: 'udp1', udp: port, ...common });
  if (tcp !== undefined) {
    try {
      splitHostPort(tcp);
    } catch {
      throw new UsageError(`--tcp "${tcp}" is not HOST:PORT, e.g. 192.168.4.1:2000`);
    }
    sources.push({ id: 'tcp1', tcp, ...common });
  }
  return sources;
}

const everything = (ports: { path: string }[]): NamedInstrument[] => [
  ...ports.map(({ path }, i) => ({
    id: `serial${i + 1}`,
    serial: path,
    baud: 'auto' as const,
    checksumOptional: false,
  })),
  { id: 'udp1', udp: UDP_USUAL, checksumOptional: false },
];

async function reportOf(ears: Ears, ports: { path: string; what?: string }[]): Promise<ListenReport> {
  const listened = ears.sources.flatMap((source) => ('serial' in source ? [source.serial] : []));
  const all: { path: string; what?: string }[] = [
    ...ports,
    ...listened.flatMap((path) => (ports.some((port) => port.path === path) ? [] : [{ path }])),
  ];
  const told = await Promise.all(
    all.map(async (port): Promise<PortReport> => {
      const fault = await portFault(port.path);
      return {
        ...port,
        isListened: listened.includes(port.path),
        ...(fault ? { fault: fault.text, cure: fault.cure } : {}),
      };
    }),
  );
  return { ...ears.heard(), ports: told };
}

/** The report in the terminal's second screen, drawn anew each second; the first comes back at the end. */
function liveScreen() {
  const write = (text: string) => void process.stdout.write(text);
  write('\x1b[?1049h\x1b[?25l');
  return {
    draw(report: ListenReport) {
      // A terminal that does not know its size says 0.
      const width = process.stdout.columns || 80;
      const height = process.stdout.rows || 24;
      const head = [`hawse listen: ${Math.floor(report.seconds)} s. Ctrl-C ends and prints all of it.`, ''];
      const whole = [...head, ...show(report, width)];
      const fits = whole.length <= height ? whole : [...head, ...showBriefly(report, width)];
      const lines = fits.slice(0, height).map((line) => `${line.slice(0, width)}\x1b[K`);
      write(`\x1b[H${lines.join('\r\n')}\x1b[J`);
    },
    close: () => write('\x1b[?25h\x1b[?1049l'),
  };
}
