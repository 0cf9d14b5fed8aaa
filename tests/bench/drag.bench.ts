import { KINDS } from './drag/kinds.ts';
import { liveNight, type Night } from './drag/night.ts';
import { judge, rivals } from './drag/report.ts';

/** `npm run bench:drag [SEEDS] [FILTER] [first seed]`: nights of the project's own simulator, held and dragging. */
const [seedsText = '4', filter = '', firstText = '0'] = process.argv.slice(2);
const nights: Night[] = [];
for (const kind of KINDS.filter(({ name, held }) => `${held ? 'held' : 'drag'} ${name}`.includes(filter))) {
  const begin = performance.now();
  const own: Night[] = [];
  for (let seed = Number(firstText); seed < Number(firstText) + Number(seedsText); seed++)
    own.push(liveNight(kind, seed));
  nights.push(...own);
  const told = own
    .map(
      ({ seed, moved, drag, circle, caution, doubtful }) =>
        `${seed}:${[drag && `D${drag.moved.toFixed(0)}`, circle && `C${circle.moved.toFixed(0)}`, !kind.held && `of ${moved.toFixed(0)}`, caution && `c${caution.moved.toFixed(0)}`, doubtful && `?${doubtful}`].filter(Boolean).join(' ')}`,
    )
    .join('  ');
  console.log(
    `${kind.name.padEnd(22)} ${((performance.now() - begin) / own.length / 1000).toFixed(1)} s a night   ${told}`,
  );
}
const held = nights.filter((night) => night.held);
const dragging = nights.filter((night) => !night.held);
for (const detector of rivals(held)) console.log(judge(detector, held, dragging));
for (const night of held) if (night.drag) console.log('false:', night.kind, night.seed, night.text);
