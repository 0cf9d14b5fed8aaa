import { existsSync, mkdirSync } from 'node:fs';
import { loadAnchorage } from '../config/anchorage.ts';
import { commonBoat } from '../config/defaults.ts';
import { ConfigError } from '../config/faults.ts';
import { loadConfig } from '../config/load.ts';
import { toSettings } from '../config/settings.ts';
import { ImportError, importRecording } from '../importing.ts';
import { nightStore } from '../nights.ts';
import { numberOption, readArguments, UsageError } from './usage.ts';

const HELP = `usage: hawse import FILE… [--anchorage FILE] [--veered METRES] [--config FILE] [--data DIR]

Makes a night of the logbook from sentences that were recorded elsewhere (plain or gzip, with or without TAG blocks); several files
are one recording, one after the other. The night is marked as imported.

  --anchorage FILE   JSON: where the anchor lay, cable veered, boat, circle, limits
  --veered METRES    cable veered: the mark is found from the track
  --config FILE      hawse.yaml for boat and limits
  --data DIR         data folder with the logbook (default: ./data)
`;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    {
      anchorage: { type: 'string' },
      veered: { type: 'string' },
      config: { type: 'string' },
      data: { type: 'string' },
    },
    HELP,
    true,
  );
  if (!read) return 0;
  const { values, operands: files } = read;
  if (files.length === 0) throw new UsageError('import needs at least one FILE');
  for (const file of files) if (!existsSync(file)) throw new UsageError(`there is no file ${file}`);
  const veered = numberOption('veered', values.veered, 1, 1000);
  const anchorage = values.anchorage ? loadAnchorage(values.anchorage) : undefined;
  const settings = toSettings(values.config ? loadConfig(values.config) : commonBoat());
  const data = values.data ?? 'data';
  mkdirSync(data, { recursive: true });
  const store = await nightStore(data);
  try {
    const { summary, notes } = await importRecording(store, files, {
      settings,
      ...(anchorage ? { anchorage } : {}),
      ...(veered === undefined ? {} : { veered }),
    });
    for (const note of notes) process.stderr.write(`${note}\n`);
    process.stdout.write(`${summary.id}\n`);
    return 0;
  } catch (error) {
    if (error instanceof ImportError) throw new ConfigError(`${files.join(', ')}: ${error.message}`);
    throw error;
  }
}
