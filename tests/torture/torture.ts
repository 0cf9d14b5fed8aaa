import { resolve } from 'node:path';
import { randomStreams } from '../../server/simulate/random.ts';
import { fillsUp } from './disks.ts';
import { killAgainAndAgain } from './kills.ts';

/** usage: npm run torture -- [CYCLES] [SEED] [SCRIPT]; prints figures, exit code 1 when anything was lost, doubled or did not come back. */
const [cycles = '500', seed = `${Date.now() % 100_000}`, script = 'server/hawse.mjs'] = process.argv.slice(2);
const victim = resolve(script);
console.log(`seed ${seed}, ${cycles} kills of ${victim}`);
const kills = await killAgainAndAgain({
  cycles: Number(cycles),
  script: victim,
  random: randomStreams(Number(seed))().uniform,
  told: (text) => console.log(text),
});
console.log(JSON.stringify(kills, undefined, 2));
const disks = await fillsUp(victim);
console.log(
  disks
    ? JSON.stringify(disks, undefined, 2)
    : 'NOT TESTED: a full and a read-only disk (no tmpfs could be mounted)',
);
process.exit(kills.faults.length + (disks?.faults.length ?? 0) > 0 ? 1 : 0);
