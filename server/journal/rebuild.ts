import type { Input } from '../../shared/input.ts';
import { journalActs, journalInputs, latestTime } from './read.ts';
import { listSegments } from './segments.ts';

type Told = (note: string) => void;

/** Without a fresh checkpoint so much of the newest journal is stepped through again, seconds: a few seconds of work. */
const REPLAYED = 3600;
/** A mark is set from where the boat was: so many seconds of sentences before it come along. */
const BEFORE_A_MARK = 60;

/**
 * What the engine must step through again when its last checkpoint is of `from` (−∞: there is none). All of it while that is little.
 * After a long time without checkpoint only what people told since the last anchor was aweigh, the sentences just before each mark,
 * and the last hour in full: a watch that comes back after minutes is no watch. This is told.
 */
export async function* inputsToRebuild(data: string, from: number, told: Told): AsyncGenerator<Input> {
  const latest = await latestTime(data);
  const first = Math.max(from, (await listSegments(data))[0]?.start ?? from);
  const recent = latest === undefined ? from : latest - REPLAYED;
  if (latest === undefined || recent - first <= REPLAYED) {
    yield* journalInputs(data, from, undefined, told);
    return;
  }
  const hours = ((latest - first) / 3600).toFixed(0);
  told(
    `The newest checkpoint that can be read is missing or ${hours} h older than the journal: the watch is rebuilt from what people told since the last anchorage and from the sentences of the last hour.`,
  );
  const acts = await journalActs(data, from, told);
  const aweigh = acts.findLastIndex((act) => act.kind === 'command' && act.command.do === 'aweigh');
  let last = from;
  for (const act of acts.slice(Math.max(aweigh, 0))) {
    if (act.at > recent) break;
    if (act.kind === 'command' && act.command.do === 'mark') {
      for await (const input of journalInputs(data, Math.max(last, act.at - BEFORE_A_MARK), act.at)) {
        if (input.kind === 'line') yield input;
        last = input.at;
      }
    }
    yield act;
    last = act.at;
  }
  yield* journalInputs(data, Math.max(last, recent), undefined, told);
}
