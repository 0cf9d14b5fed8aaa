import { availableParallelism, loadavg } from 'node:os';

/** Prints a figure that is measured and not asserted, and how busy this computer was: these tests run beside each other. */
export function measured(what: string): void {
  console.log(`MEASURED (load ${loadavg()[0]!.toFixed(1)} on ${availableParallelism()} cores): ${what}`);
}
