import { type Book, follow } from '../../shared/logbook/book.ts';
import type { NightSummary, Sample } from '../../shared/logbook/night.ts';
import { endNight, summaryOf } from '../../shared/logbook/observe.ts';
import type { NightRecord } from '../../shared/logbook/record.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Recorded } from './recorded.ts';
import { beginningOf, JUST_BEFORE, journalOf, relive } from './relive.ts';
import type { Store } from './store.ts';

/** A mistaken "aweigh" can be taken back for half an hour: so long a night may yet go on. */
const TAKEN_BACK_WITHIN = 1800;

export interface Rebuilt {
  record: NightRecord;
  samples: Sample[];
}

/**
 * Makes the record of a night anew from its journal. `to`: where it ends when that is known, UNIX seconds; else at its "aweigh". Undefined when
 * the journal holds no watch there any more.
 */
export async function rebuild(
  store: Store,
  recorded: Recorded,
  night: Pick<NightSummary, 'id' | 'origin' | 'from' | 'to'>,
  told: { version: string; settings: Settings; simulated?: string },
): Promise<Rebuilt | undefined> {
  const beginning = await beginningOf(store, recorded, night, told.settings);
  const book: Book = {};
  let samples: Sample[] = [];
  let record: NightRecord | undefined;
  let closedAt: number | undefined;
  const origin = () => ({
    id: night.id,
    origin: night.origin,
    version: told.version,
    ...(told.simulated === undefined ? {} : { simulated: told.simulated }),
  });
  const inputs = recorded.inputs(
    journalOf(store.data, night),
    beginning.at,
    night.to ?? Number.POSITIVE_INFINITY,
  );
  await relive(beginning, inputs, (engine, input, events) => {
    if (closedAt !== undefined && input.at > closedAt + TAKEN_BACK_WITHIN) return true;
    const { opened, closed, sample } = follow(book, engine, input, events, origin);
    if (opened && record && opened !== record) return true; // the next night
    if (opened) {
      record = opened;
      closedAt = undefined;
    }
    if (sample) samples.push(sample);
    if (record && (sample || closed === record)) summaryOf(record, engine);
    if (closed) closedAt = input.at;
    return undefined;
  });
  if (!record) return undefined;
  if (record.night.summary.to === undefined && night.to !== undefined) endNight(record, night.to);
  record.night.summary.rebuilt = { exact: beginning.exact };
  samples = samples.filter(({ at }) => at >= night.from - JUST_BEFORE);
  return { record, samples };
}
