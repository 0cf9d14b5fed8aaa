import { type Run, STAGES } from './run.ts';

const mean = (values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const percent = (values: number[]): string => `${Math.round(100 * mean(values))} %`;

export const header = (): string =>
  '| weighing | short said, s | up and down said, s | aweigh said, s | foul leads warned before / foul | warnings | cross-track, m | lead within 45° | distance error, m | up and down after, s | anchor pulled out first |\n' +
  '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |';

/** When hawse said it, in seconds after it was so: median (earliest to latest); and how often it never did. */
function lateness(runs: Run[], stage: (typeof STAGES)[number]): string {
  const so = runs.filter(({ truth }) => truth[stage] !== undefined);
  if (so.length === 0) return 'never came to it';
  const late = so.flatMap(({ truth, said }) =>
    said[stage] === undefined ? [] : [said[stage] - truth[stage]!],
  );
  const missed = so.length - late.length;
  if (late.length === 0) return `never (${missed})`;
  late.sort((a, b) => a - b);
  const middle = late[Math.floor(late.length / 2)]!;
  return `${middle.toFixed(0)} (${late[0]!.toFixed(0)} to ${late.at(-1)!.toFixed(0)})${missed > 0 ? `, never: ${missed}` : ''}`;
}

function foul(runs: Run[]): string {
  const under = runs.filter((run) => run.under !== undefined);
  const before = under.filter((run) =>
    run.alerts.some(({ kind, at }) => (kind === 'lead-foul' || kind === 'overrun') && at <= run.under!),
  );
  return under.length === 0 ? 'none' : `${before.length} / ${under.length}`;
}

function warnings(runs: Run[]): string {
  const kinds = new Map<string, number>();
  for (const { alerts } of runs) for (const { kind } of alerts) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  return [...kinds].map(([kind, times]) => `${kind} in ${times}`).join(', ') || 'none';
}

export function row(name: string, runs: Run[]): string {
  const arrived = runs.flatMap(({ truth }) =>
    truth['up-and-down'] === undefined ? [] : [truth['up-and-down']],
  );
  const cells = [
    name,
    ...STAGES.map((stage) => lateness(runs, stage)),
    foul(runs),
    warnings(runs),
    mean(runs.map(({ crossTrack }) => crossTrack)).toFixed(1),
    percent(runs.map(({ fairLead }) => fairLead)),
    mean(runs.map(({ distance }) => distance)).toFixed(1),
    arrived.length === 0
      ? 'never'
      : `${mean(arrived).toFixed(0)}${arrived.length < runs.length ? ` (${arrived.length} of ${runs.length})` : ''}`,
    String(runs.filter(({ cameHome }) => cameHome !== undefined).length),
  ];
  return `| ${cells.join(' | ')} |`;
}
