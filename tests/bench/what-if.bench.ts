import type { EngineState } from '../../shared/engine.ts';
import type { Input } from '../../shared/input.ts';
import { rerun } from '../../shared/logbook/rerun.ts';
import { keepNights, whole } from '../server/logbook/keptNight.ts';

// How many times faster than the night a what-if runs on one core: a rehearsed night of two hours with all instruments.
const HOURS = 2;

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

for (const radius of [30, 35, 40]) {
  const run = rerun(
    { at, exact, state, inputs },
    { id, origin: 'watch', version: 'bench' },
    { circleRadius: radius },
  );
  const begun = process.cpuUsage();
  while (!run.go(1000));
  const { user, system } = process.cpuUsage(begun);
  const seconds = (user + system) / 1e6;
  console.log(
    `what if, ${HOURS} h, ${inputs.length} inputs: ${seconds.toFixed(2)} s of one core, ${Math.round((HOURS * 3600) / seconds)} times real time, ${((seconds * 1e6) / inputs.length).toFixed(1)} µs an input`,
  );
}
