import { type Kind, scenarioOf } from './weigh/kinds.ts';
import { header, row } from './weigh/report.ts';
import { type Run, weighOnce } from './weigh/run.ts';

/**
 * `npm run bench -- weigh [SEEDS]` (node tests/bench/run.mjs weigh 6): simulated weighings through the whole engine, and when hawse said
 * what against truth. Prints the tables of docs/weigh.md. GNSS error: 2 m per axis, correlated over 20 minutes; mark wrong by 2 m per axis.
 */
const seeds = Number(process.argv[2] ?? 6);

function print(title: string, rows: [string, Kind, Parameters<typeof weighOnce>[2]][]): void {
  console.log(`\n${title}\n\n${header()}`);
  for (const [name, kind, how] of rows) {
    const runs: Run[] = [];
    for (let seed = 1; seed <= seeds; seed++) runs.push(weighOnce(scenarioOf(kind), seed, how));
    console.log(row(name, runs));
  }
}

const hulls = ['monohull', 'catamaran'] as const;
const streams = ['none', 'with', 'across', 'against'] as const;
const helms = ['guided', 'wind'] as const;
print(
  'Following guidance beside pointing at the wind',
  hulls.flatMap((hull) =>
    streams.flatMap((stream) =>
      helms.map((helm): [string, Kind, { helm: typeof helm; entries: true }] => [
        `${hull}, stream ${stream}, ${helm}`,
        { hull, stream },
        { helm, entries: true },
      ]),
    ),
  ),
);

const mono: Kind = { hull: 'monohull', stream: 'across' };
const guided = { helm: 'guided', entries: true } as const;
print('Other conditions, stream across', [
  ['monohull, chain counter, no entries', { ...mono, counter: true }, { ...guided, entries: false }],
  ['monohull, no entries', mono, { ...guided, entries: false }],
  ['monohull, no compass', { ...mono, without: ['HDG'] }, guided],
  ['monohull, no wind', { ...mono, without: ['MWV'] }, guided],
  ['monohull, no log', { ...mono, without: ['VHW'] }, guided],
  ['monohull, hard-set', { ...mono, breakOut: 6000 }, guided],
  ['monohull, 20 kn', { ...mono, windKnots: 20 }, guided],
  ['monohull, bow falls off', mono, { ...guided, helm: 'falls-off' }],
  ['monohull, overruns', mono, { ...guided, helm: 'overruns' }],
  ['catamaran, bow falls off', { ...mono, hull: 'catamaran' }, { ...guided, helm: 'falls-off' }],
  ['catamaran, overruns', { ...mono, hull: 'catamaran' }, { ...guided, helm: 'overruns' }],
]);
