import { existsSync } from 'node:fs';

/** `hawse` and `npm start` without a command: the real watch when hawse.yaml is here, else a simulated anchorage. */
export async function startAsFound(): Promise<number> {
  const found = existsSync('hawse.yaml');
  const command = found ? await import('./keep-supervised.ts') : await import('./rehearse.ts');
  if (!found) process.stdout.write('No hawse.yaml here: this is a simulated anchorage, not your boat.\n');
  return command.run([]);
}
