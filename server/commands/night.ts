import { existsSync } from 'node:fs';
import { NIGHT_ID } from '../../shared/messages.ts';
import { commonBoat } from '../config/defaults.ts';
import { ConfigError } from '../config/faults.ts';
import { toSettings } from '../config/settings.ts';
import { formatOf } from '../journal/format.ts';
import { type Logbook, LogbookError } from '../logbook/logbook.ts';
import { logbookOf } from '../nights.ts';
import { UsageError } from './usage.ts';

/** The logbook in a data folder, for a command that may name a night of it. Throws UsageError, and FormatError when a newer hawse wrote it. */
export async function logbookAt(data: string, night?: string): Promise<Logbook> {
  if (!existsSync(data)) throw new UsageError(`there is no data folder ${data}; tell it with --data DIR`);
  if (night !== undefined && !NIGHT_ID.test(night))
    throw new UsageError(`--night "${night}" is no id like 2026-11-25T2010-1; hawse export lists them`);
  await formatOf(data);
  return logbookOf(data, toSettings(commonBoat()));
}

/** What the logbook refuses is told without a stack. */
export async function inWords<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof LogbookError) throw new ConfigError(error.message);
    throw error;
  }
}

/** The inputs of a night as JSON lines. */
export const nightInputs = async (data: string, night: string): Promise<AsyncIterable<string>> =>
  inWords((await logbookAt(data, night)).inputs(night));
