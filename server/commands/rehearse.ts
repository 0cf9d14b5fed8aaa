import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Settings } from '../../shared/settings.ts';
import { snapshot } from '../../shared/snapshot.ts';
import { commonBoat } from '../config/defaults.ts';
import { type Config, configSchema } from '../config/schema.ts';
import { toSettings } from '../config/settings.ts';
import type { Keeper } from '../keeper.ts';
import { anchorages } from '../simulate/anchorages.ts';
import { playInto } from '../simulate/play.ts';
import type { Scenario } from '../simulate/scenario.ts';
import { createSimulator, type Simulator } from '../simulate/simulator.ts';
import { crewed } from '../simulate/weighing/rehearsed.ts';
import { createTimeline } from '../timeline.ts';
import { serve } from './serve.ts';
import { numberOption, readArguments, UsageError } from './usage.ts';

const DEFAULT = 'quiet-night';

const HELP = `usage: hawse rehearse [NAME] [--seed N] [--rate N] [--list] [--data DIR] [--port N] [--host ADDR]

Keeps the watch on a simulated anchorage (default: ${DEFAULT}), so that a crew can learn what a night looks like. Every page
says SIMULATED.

  --list        the anchorages by name
  --seed N      another night of the same kind (default 1)
  --rate N      how fast time runs (default 1)
  --data DIR    keep the journal here (default: a temporary folder that is removed)
  --port N      port of the pages (default: 8274; 0: any free one)
  --host ADDR   address to listen on (default: all)
`;

/** The name of the input that the simulator speaks on. */
const INPUT = 'simulator';

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    {
      seed: { type: 'string' },
      rate: { type: 'string' },
      list: { type: 'boolean' },
      data: { type: 'string' },
      port: { type: 'string' },
      host: { type: 'string' },
    },
    HELP,
    true,
  );
  if (!read) return 0;
  const { values, operands } = read;
  if (values.list) {
    for (const { name, description } of anchorages())
      process.stdout.write(`${name.padEnd(18)} ${description}\n`);
    return 0;
  }
  if (operands.length > 1) throw new UsageError('rehearse takes one NAME; see hawse rehearse --list');
  const scenario = named(operands[0] ?? DEFAULT);
  const seed = numberOption('seed', values.seed, 0, 2 ** 31) ?? 1;
  const rate = numberOption('rate', values.rate, 0.1, 200) ?? 1;
  const server = configSchema.shape.server.parse(undefined);
  const data = values.data ?? mkdtempSync(join(tmpdir(), 'hawse-rehearse-'));
  try {
    return await rehearse(scenario, {
      seed,
      rate,
      data,
      server: {
        ...server,
        // An authority that is forgotten with its folder is not to be trusted by anybody's phone; and no boat has the name.
        tls: values.data ? server.tls : false,
        mdns: false,
        port: numberOption('port', values.port, 0, 65_535) ?? server.port,
        host: values.host ?? server.host,
      },
    });
  } finally {
    if (!values.data) rmSync(data, { recursive: true, force: true });
  }
}

function named(name: string): Scenario {
  const found = anchorages().find((scenario) => scenario.name === name);
  if (found) return found;
  throw new UsageError(
    `there is no anchorage "${name}"; allowed: ${anchorages()
      .map((one) => one.name)
      .join(', ')}`,
  );
}

interface Rehearsal {
  seed: number;
  rate: number;
  data: string;
  server: Config['server'];
}

/** The simulated night begins now: its instruments tell the time that the daemon's timeline tells. */
function rehearse(scenario: Scenario, { seed, rate, data, server }: Rehearsal): Promise<number> {
  let simulator: Simulator | undefined;
  let kept: Keeper | undefined;
  return serve({
    settings: settingsOf(scenario),
    data,
    startTimeline(notBefore) {
      const start = Math.ceil(Math.max(Date.now() / 1000, notBefore));
      const begun = { ...scenario, start: { ...scenario.start, at: start } };
      simulator = crewed(createSimulator(begun, seed), begun, {
        view: () => kept && snapshot(kept.engine(), kept.now()).weigh,
        order: (command, by) => void kept?.feed({ kind: 'command', by, command }),
      });
      return createTimeline(start, rate);
    },
    server,
    simulated: scenario.title,
    feeder: (sinks, timeline) => {
      sinks.link(INPUT, true, `simulated instruments of "${scenario.title}"`);
      return playInto(simulator!, { now: () => timeline.now(), line: (text) => sinks.line(INPUT, text) });
    },
    started: ({ keeper }) => {
      kept = keeper;
      const { lat, lon } = simulator!.truth().anchor;
      const command = { do: 'mark', how: { lat, lon, sigma: 2 } } as const;
      void keeper.feed({ kind: 'command', by: 'rehearsal', command });
    },
  });
}

/** What the rehearsed crews have painted on their chain. */
const MARKS = ['red', 'yellow', 'blue', 'two red', 'two yellow', 'two blue'].map((what, i) => ({
  at: 10 * (i + 1),
  what,
}));

/** The boat and cable of the scenario with the limits that a crew would set. */
export function settingsOf(scenario: Scenario): Settings {
  const settings = toSettings(commonBoat());
  return {
    ...settings,
    boat: scenario.boat,
    cable: { ...settings.cable, ...scenario.cable, marks: MARKS },
    limits: { depthBelow: 2.5, windAbove: 15.4, windShift: 60, ...scenario.limits },
  };
}
