import { existsSync } from 'node:fs';
import type { Event } from '../../shared/events.ts';
import { loadAnchorage, withAnchorage } from '../config/anchorage.ts';
import { commonBoat } from '../config/defaults.ts';
import { loadConfig } from '../config/load.ts';
import { toSettings } from '../config/settings.ts';
import { replay, replayNight, type Summary } from '../replay.ts';
import { nightInputs } from './night.ts';
import { numberOption, readArguments, UsageError } from './usage.ts';

const HELP = `usage: hawse replay LOG… [--anchorage FILE] [--config FILE] [--jsonl] [--lie SECONDS]
       hawse replay --night ID [--data DIR] [--jsonl] [--lie SECONDS]

Runs recorded sentences (plain or gzip, with or without TAG blocks) through the engine as fast as it can.

  --anchorage FILE   JSON: where the anchor lies, cable veered, boat, circle, limits; without it no watch is kept
  --config FILE      hawse.yaml for boat and limits
  --night ID         a night of the logbook, with its mark and every order that was given
  --data DIR         data folder with the logbook (default: ./data)
  --jsonl            one JSON object a line: every change of an alert, and a summary at the end
  --lie SECONDS      with --jsonl: also how the boat lies, every so many seconds of the recording
`;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    {
      anchorage: { type: 'string' },
      config: { type: 'string' },
      jsonl: { type: 'boolean' },
      lie: { type: 'string' },
      night: { type: 'string' },
      data: { type: 'string' },
    },
    HELP,
    true,
  );
  if (!read) return 0;
  const { values, operands: logs } = read;
  const { night } = values;
  if (night === undefined && logs.length === 0)
    throw new UsageError('replay needs at least one LOG file, or --night ID');
  if (night !== undefined && (logs.length > 0 || values.anchorage || values.config))
    throw new UsageError('--night takes no LOG, --anchorage or --config: the night has its own');
  for (const log of logs) if (!existsSync(log)) throw new UsageError(`there is no file ${log}`);

  const lieEvery = numberOption('lie', values.lie, 1, 86_400);
  if (lieEvery !== undefined && !Number.isInteger(lieEvery))
    throw new UsageError('--lie takes whole seconds');
  let settings = toSettings(values.config ? loadConfig(values.config) : commonBoat());
  const anchorage = values.anchorage ? loadAnchorage(values.anchorage) : undefined;
  if (anchorage) settings = withAnchorage(settings, anchorage);
  if (lieEvery !== undefined) settings = { ...settings, lieEvery };

  const show = values.jsonl ? jsonLine : readable;
  const summary =
    night === undefined
      ? (await replay(logs, settings, anchorage, show)).summary
      : await replayNight(await nightInputs(values.data ?? 'data', night), lieEvery, show);
  if (values.jsonl) process.stdout.write(`${JSON.stringify(summary)}\n`);
  else process.stdout.write(`${summarise(summary, anchorage !== undefined || night !== undefined)}\n`);
  return 0;
}

function jsonLine(event: Event): void {
  process.stdout.write(`${JSON.stringify(event)}\n`);
}

const clockTime = (at: number) => `${new Date(at * 1000).toISOString().slice(0, 19).replace('T', ' ')} UTC`;

function readable(event: Event): void {
  if (event.event === 'alert') {
    process.stdout.write(
      `${clockTime(event.t)}  ${event.priority.padEnd(8)} ${event.kind.padEnd(18)} ${event.state.padEnd(25)} ${event.text}\n`,
    );
  } else if (event.event === 'note') {
    process.stdout.write(`${clockTime(event.t)}  note     ${event.text}\n`);
  }
}

function summarise(summary: Summary, watched: boolean): string {
  const { checksum, malformed, unknown } = summary.rejected;
  const span =
    summary.from === undefined || summary.to === undefined
      ? 'no time'
      : `${clockTime(summary.from)} to ${clockTime(summary.to)}`;
  const alerts = Object.entries(summary.alerts).map(([kind, times]) => `${kind} ${times}×`);
  return [
    '',
    `${summary.sentences} sentences from ${summary.lines} lines (${span}), in ${summary.seconds.toFixed(2)} s.`,
    `Refused: ${checksum} by checksum, ${malformed} malformed, ${unknown} of a kind hawse does not read.`,
    ...(summary.circle === undefined ? [] : [`Circle: ${summary.circle.toFixed(1)} m.`]),
    watched
      ? `Alerts: ${alerts.join(', ') || 'none'}.`
      : 'No mark was given (--anchorage), so no watch was kept.',
    ...summary.notes,
  ].join('\n');
}
