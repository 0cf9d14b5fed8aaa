import { readFileSync } from 'node:fs';
import { UsageError } from './commands/usage.ts';

/** One module a command; each gets the arguments after its name. Loaded when called, so that `--help` stays quick. */
const COMMANDS = {
  keep: { load: () => import('./commands/keep-supervised.ts'), does: 'keep the watch on real instruments' },
  rehearse: { load: () => import('./commands/rehearse.ts'), does: 'keep the watch on a simulated anchorage' },
  pair: { load: () => import('./commands/pair.ts'), does: 'show a code by which a phone can be paired' },
  replay: { load: () => import('./commands/replay.ts'), does: 'run recorded sentences through the engine' },
  listen: {
    load: () => import('./commands/listen.ts'),
    does: 'show which ports and sentences there are, and what is missing',
  },
  check: {
    load: () => import('./commands/check.ts'),
    does: 'look for faults: config, ports, disk, clock, addresses, certificate, horn',
  },
  export: {
    load: () => import('./commands/export.ts'),
    does: 'write a night of the logbook as GPX, GeoJSON, CSV or sentences',
  },
  import: {
    load: () => import('./commands/import.ts'),
    does: 'make a night of sentences recorded elsewhere',
  },
} as const;

const HELP = `hawse: anchor watch and weighing monitor

usage: hawse [COMMAND] [options]

${Object.entries(COMMANDS)
  .map(([name, { does }]) => `  ${name.padEnd(10)} ${does}`)
  .join('\n')}

Without a command: keep, when there is a hawse.yaml here; otherwise a simulated anchorage.
Each command explains itself: hawse COMMAND --help. hawse --version tells the version.
`;

function version(): string {
  const manifest = new URL('../../package.json', import.meta.url);
  return (JSON.parse(readFileSync(manifest, 'utf8')) as { version: string }).version;
}

async function main(args: string[]): Promise<number> {
  const [first, ...rest] = args;
  if (first === '--help' || first === '-h') {
    process.stdout.write(HELP);
    return 0;
  }
  if (first === '--version') {
    process.stdout.write(`${version()}\n`);
    return 0;
  }
  if (first === undefined) {
    const { startAsFound } = await import('./commands/start.ts');
    return startAsFound();
  }
  if (!Object.hasOwn(COMMANDS, first)) {
    throw new UsageError(
      `"${first}" is no command; allowed: ${Object.keys(COMMANDS).join(', ')}, --help, --version`,
    );
  }
  const command = await COMMANDS[first as keyof typeof COMMANDS].load();
  return command.run(rest);
}

// Whoever reads the output may stop reading (`| head`): that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

/** 0 done, 1 the thing asked failed, 2 wrong usage (one line says what is wrong and what is allowed). */
try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  const usage = error instanceof UsageError;
  const told = usage || (error as Error).name === 'ConfigError';
  process.stderr.write(`hawse: ${told ? (error as Error).message : ((error as Error).stack ?? error)}\n`);
  process.exitCode = usage ? 2 : 1;
}
