import { realTime } from './real-time.ts';
import { soak } from './week.ts';

/** usage: npm run soak -- [DAYS] [HOURS A DAY] [INPUTS], or npm run soak -- real MINUTES; exit code 1 when anything was not as it must be. */
const args = process.argv.slice(2);
const told = (text: string) => console.log(text);
let good: boolean;
if (args[0] === 'real') {
  const figures = await realTime({ minutes: Number(args[1] ?? 60), told });
  console.log(JSON.stringify(figures, undefined, 2));
  good = figures.same && figures.faults.length === 0;
} else {
  const [days = 7, hours = 24, inputs = 2] = args.map(Number);
  const begun = performance.now();
  const figures = await soak({ days, hours, inputs, told });
  console.log(JSON.stringify(figures, undefined, 2));
  console.log(`took ${((performance.now() - begun) / 60_000).toFixed(1)} min`);
  console.log(`heap slope ${(figures.heap.slopePerDay / 1e3).toFixed(1)} kB a simulated day`);
  good = figures.same && figures.faults.length === 0;
}
process.exit(good ? 0 : 1);
