import { randomUUID } from 'node:crypto';
import { mkdir, open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Finding } from '../shared/alerts/alert.ts';
import { reportOf } from '../shared/logbook/report/report.ts';
import type { Settings } from '../shared/settings.ts';
import type { DeskLogbook } from './api/desk.ts';
import { Problem } from './api/problem.ts';
import { readAnchorage } from './config/anchorage.ts';
import { ConfigError } from './config/faults.ts';
import { ImportError, importRecording } from './importing.ts';
import { nightsFolder } from './logbook/files.ts';
import { createNightKeeper, type NightKeeper } from './logbook/keep.ts';
import { createLogbook, LogbookError } from './logbook/logbook.ts';
import type { Store } from './logbook/store.ts';
import { hawseVersion, nightStore, recorded } from './nights.ts';

export interface NightWatchPorts {
  data: string;
  settings: Settings;
  simulated?: string | undefined;
  engine(): Parameters<NightKeeper['now']>[0];
  /** A fault of the logbook holds, or has ended. */
  tell(raised: boolean, text: string): void;
  log: { error(what: object, text: string): void; warn(what: object, text: string): void };
}

/** The logbook beside the watch: keeps the night that goes on, and lends the nights to the api. */
export interface NightWatch {
  /** Undefined when the folder of nights cannot be had: the watch goes on without, and this is told. */
  keeper: NightKeeper | undefined;
  logbook: DeskLogbook | undefined;
  /** When people can be told: mends what an earlier run left behind, in the background. */
  begin(left: readonly Finding[]): void;
  /** All is written. */
  settled(): Promise<void>;
}

export const LOGBOOK = 'logbook';
/** The journal hands lines to the disk within a second: then a night that was just closed is whole there. */
const FLUSHED_MS = 3000;
/** Bytes of a recording that is sent to be imported. */
const LARGEST = 256 * 1024 * 1024;

export async function createNightWatch(ports: NightWatchPorts): Promise<NightWatch> {
  const { data, settings, simulated, log } = ports;
  let fault: string | undefined;
  let isBegun = false;
  const trouble = (why: string | undefined) => {
    if (why === fault) return;
    fault = why;
    if (why !== undefined) log.error({ why }, 'the logbook');
    if (isBegun) ports.tell(why !== undefined, why ?? 'The logbook is kept again.');
  };
  const begun = (left: readonly Finding[]) => {
    isBegun = true;
    const wasTold = left.some(({ kind, subject }) => kind === 'daemon' && subject === LOGBOOK);
    if (fault !== undefined) ports.tell(true, fault);
    else if (wasTold) ports.tell(false, 'The logbook is kept again.');
  };
  let store: Store;
  let keeper: NightKeeper;
  const version = hawseVersion();
  try {
    store = await nightStore(data);
    keeper = await createNightKeeper({
      store,
      version,
      ...(simulated === undefined ? {} : { simulated }),
      trouble,
      closed(summary, stale) {
        setTimeout(() => {
          logbook
            .finish(summary.id, stale)
            .catch((error) => log.error({ err: error }, 'a night was not finished'));
        }, FLUSHED_MS).unref();
      },
    });
  } catch (error) {
    trouble(`The logbook cannot be read, so no night is entered: ${(error as Error).message}`);
    return { keeper: undefined, logbook: undefined, begin: begun, settled: async () => {} };
  }
  const logbook = createLogbook({
    store,
    recorded,
    version,
    settings,
    ...(simulated === undefined ? {} : { simulated }),
    now: () => keeper.now(ports.engine()),
    told: (note) => log.warn({ note }, 'the logbook'),
  });
  return {
    keeper,
    logbook: {
      list: logbook.list,
      open: (id) => told(logbook.open(id)),
      say: (id, said) => told(logbook.say(id, said)),
      places: logbook.places,
      track: logbook.track,
      sentences: (id) => told(logbook.sentences(id)),
      inputs: (id) => told(logbook.inputs(id)),
      export: (id, as) => told(logbook.export(id, as)),
      report: async (id) => reportOf(await told(logbook.open(id)), { at: Date.now() / 1000, version }),
      import: (recording, with_) => told(importSent(store, settings, recording, with_)),
    },
    begin(left) {
      begun(left);
      logbook.mend().catch((error) => log.error({ err: error }, 'the logbook was not mended'));
    },
    settled: keeper.settled,
  };
}

type Sent = Parameters<DeskLogbook['import']>[1];

/** Takes a recording as it comes in, by way of a file, and makes a night of it. */
async function importSent(
  store: Store,
  settings: Settings,
  recording: AsyncIterable<Buffer>,
  { name, anchorage, veered, lat, lon }: Sent,
): ReturnType<DeskLogbook['import']> {
  if ((lat === undefined) !== (lon === undefined))
    throw new Problem('not-valid', 'A mark needs lat and lon together.');
  const told = anchorage === undefined ? undefined : readAnchorage(anchorage, 'anchorage');
  await mkdir(nightsFolder(store.data), { recursive: true });
  const file = join(nightsFolder(store.data), `.sent-${randomUUID()}`);
  try {
    const handle = await open(file, 'wx');
    try {
      let bytes = 0;
      for await (const chunk of recording) {
        bytes += chunk.length;
        if (bytes > LARGEST)
          throw new Problem(
            'too-long',
            `A recording may have ${LARGEST / 1024 / 1024} MiB; packed (gzip) it is a tenth.`,
          );
        await handle.writeFile(chunk);
      }
    } finally {
      await handle.close();
    }
    return await importRecording(store, [file], {
      settings,
      // People know the recording by their name for it.
      name: name ?? 'the recording',
      ...(told ? { anchorage: told } : {}),
      ...(veered === undefined ? {} : { veered }),
      ...(lat === undefined || lon === undefined ? {} : { mark: { lat, lon } }),
    });
  } finally {
    await rm(file, { force: true });
  }
}

/** Faults of the logbook as the api tells them. */
async function told<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof LogbookError) throw new Problem(error.kind, error.message);
    if (error instanceof ImportError || error instanceof ConfigError)
      throw new Problem('not-valid', error.message);
    throw error;
  }
}
