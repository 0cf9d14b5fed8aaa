import { resolve } from 'node:path';
import { ConfigError } from '../config/faults.ts';
import { loadConfig } from '../config/load.ts';
import { openConfigFile } from '../config/open.ts';
import { toPolicy } from '../config/sections/journal.ts';
import { nameOutputs } from '../config/sections/raise.ts';
import { nameInstruments, toSettings } from '../config/settings.ts';
import { hostClocks } from '../host-clock.ts';
import { startIntakes } from '../intake/manage.ts';
import { createTimeline } from '../timeline.ts';
import { serve } from './serve.ts';
import { numberOption, readArguments } from './usage.ts';

const HELP = `usage: hawse keep [--config FILE] [--data DIR] [--port N] [--host ADDR] [--alone]

Keeps the anchor watch on the boat's own instruments until it is stopped (Ctrl-C).

  --config FILE   hawse.yaml (default: ./hawse.yaml)
  --data DIR      journal and key (default: ./data)
  --port N        port of the pages (default: 8274, or what the config says; 0: any free one)
  --host ADDR     address to listen on (default: all)
  --alone         without the process that starts hawse again when it ends or stands still
`;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    {
      config: { type: 'string' },
      data: { type: 'string' },
      port: { type: 'string' },
      host: { type: 'string' },
    },
    HELP,
  );
  if (!read) return 0;
  const { values } = read;
  const port = numberOption('port', values.port, 0, 65_535);
  const file = values.config ?? 'hawse.yaml';
  const config = loadConfig(file);
  if (config.instruments.length === 0) {
    throw new ConfigError(
      'instruments: none is listed, so nothing could be heard; list {serial}, {udp} or {tcp} (hawse rehearse needs none).',
    );
  }
  const instruments = nameInstruments(config.instruments);
  const data = values.data ?? 'data';
  return serve({
    settings: toSettings(config),
    config: openConfigFile(resolve(file), config),
    data,
    raise: nameOutputs(config.raise),
    journal: toPolicy(config.journal),
    supervise: config.supervise,
    clocks: hostClocks,
    startTimeline: (notBefore) => createTimeline(Math.max(Date.now() / 1000, notBefore)),
    server: {
      ...config.server,
      ...(port === undefined ? {} : { port }),
      ...(values.host ? { host: values.host } : {}),
    },
    feeder: (sinks) => {
      const intakes = startIntakes(instruments, sinks);
      return { stop: async () => void (await Promise.all(intakes.map((intake) => intake.stop()))) };
    },
  });
}
