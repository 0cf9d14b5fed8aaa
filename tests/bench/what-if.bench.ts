import type { EngineState } from '../../shared/engine.ts';
import type { Input } from '../../shared/input.ts';
import { createHeard, type NightHearing } from '../../shared/logbook/heard.ts';
import { rerun } from '../../shared/logbook/rerun.ts';
import type { WhatIf } from '../../shared/logbook/what-if.ts';
import { keepNights, whole } from '../server/logbook/keptNight.ts';

// How many times faster than the night a what-if runs on one core: a rehearsed night with all instruments and neighbours. Processor time,
// not the clock on the wall. As the page does it: the night is lived once as it was, then with something else tried, again and again.
// usage: node tests/bench/run.mjs what-if [HOURS]
const HOURS = Number(process.argv[2] ?? 8);

const kept = await keepNights(undefined, { anchorage: 'quiet-night' });
await kept.live(10);
const { lat, lon } = kept.anchor();
await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'mark', how: { lat, lon, sigma: 2 } } });
await kept.live(HOURS * 3600);
await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
await kept.nights.settled();
const { id } = (await kept.logbook.list()).nights[0]!;
const [head, ...lines] = (await whole(await kept.logbook.inputs(id))).trimEnd().split('\n');
await kept.stop();
const { at, exact, state } = JSON.parse(head!) as { at: number; exact: boolean; state: EngineState };
const inputs = lines.map((line) => JSON.parse(line) as Input);

function live(name: string, what: WhatIf, ears?: NightHearing): void {
  const run = rerun({ at, exact, state, inputs }, { id, origin: 'watch', version: 'bench' }, what, ears);
  const begun = process.cpuUsage();
  while (!run.go(1000));
  const { user, system } = process.cpuUsage(begun);
  const seconds = (user + system) / 1e6;
  const { alerts } = run.lived()!.night;
  console.log(
    `${name.padEnd(34)} ${seconds.toFixed(2)} s of one core, ${String(Math.round((HOURS * 3600) / seconds)).padStart(6)} times real time, ${((seconds * 1e6) / inputs.length).toFixed(1)} µs an input; ${alerts.length} alerts`,
  );
}

const room = () => {
  globalThis.gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1e6;
};

console.log(`A night of ${HOURS} h, ${inputs.length} inputs.`);
const before = room();
const heard = createHeard(inputs.length);
live('as it was, and kept', {}, heard.keeping);
console.log(`kept of what the instruments said: ${(room() - before).toFixed(0)} MB`);
const again = () => heard.again()!;
live('what if, the first', { circleRadius: 60 }, again());
for (let time = 2; time <= 6; time++) live(`what if, number ${time}`, { circleRadius: 60 + time }, again());
live('what if, always outside the circle', { circleRadius: 25 }, again());
live(
  'what if, more cable and another mark',
  { veered: 50, mark: { lat: lat + 1e-4, lon, sigma: 3 } },
  again(),
);
live('what if, heard anew', { circleRadius: 60 });
