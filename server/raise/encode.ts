import type { AlertState, Priority } from '../../shared/alerts/alert.ts';
import { field, LONGEST, sentence, utc } from './sentence.ts';

/** Encoders of IEC 61162-1 alert sentences, in the order of fields that shared/sentences/alerts.ts reads. */

/** One alert as the bus knows it. */
export interface OnTheBus {
  /** ALF identifier and instance. */
  identifier: number;
  instance: number;
  /** Counts the changes, 1 to 99. */
  revision: number;
  /** How often it has become more urgent by itself, 0 to 9. */
  escalation: number;
  priority: Priority;
  state: AlertState;
  title: string;
  text: string;
  /** UTC of its present state, UNIX seconds. */
  at: number;
}

const PRIORITY = { alarm: 'A', warning: 'W', caution: 'C' } as const;
const STATE = {
  'active-unacknowledged': 'V',
  'active-silenced': 'S',
  'active-acknowledged': 'A',
  'rectified-unacknowledged': 'U',
  normal: 'N',
} as const;
const TITLE_ROOM = 16;

/**
 * ALF: one alert in two sentences, title and description; times and letters stand in the first only. `category`: B may be
 * acknowledged from the bus, A only aboard hawse's own pages. `sequence` 0–9 joins the two.
 */
export function alf(
  talker: string,
  manufacturer: string,
  category: 'A' | 'B',
  sequence: number,
  alert: OnTheBus,
): string[] {
  const address = `${talker}ALF`;
  const who = [manufacturer, alert.identifier, alert.instance, alert.revision, alert.escalation];
  const letters = [category, PRIORITY[alert.priority], STATE[alert.state]];
  return [
    sentence(address, [2, 1, sequence, utc(alert.at), ...letters, ...who, field(alert.title, TITLE_ROOM)]),
    sentence(address, [2, 2, sequence, '', '', '', '', ...who], alert.text),
  ];
}

type Entry = Pick<OnTheBus, 'identifier' | 'instance' | 'revision'>;

/** ALC: the list of the alerts that are not normal, in as many sentences as it needs; one without entries when there are none. */
export function alc(
  talker: string,
  manufacturer: string,
  sequence: number,
  entries: readonly Entry[],
): string[] {
  const address = `${talker}ALC`;
  const two = (n: number) => String(n).padStart(2, '0');
  const most = LONGEST - sentence(address, ['00', '00', two(sequence), '00']).length;
  const parts: string[][] = [[]];
  let length = 0;
  for (const { identifier, instance, revision } of entries) {
    const entry = [manufacturer, identifier, instance, two(revision)].join(',');
    if (length + entry.length + 1 > most) {
      parts.push([]);
      length = 0;
    }
    length += entry.length + 1;
    parts.at(-1)!.push(entry);
  }
  return parts.map((part, i) =>
    sentence(address, [two(parts.length), two(i + 1), two(sequence), two(part.length), ...part]),
  );
}

/** ALR: one kind of alert by its number. Without alert: there is none, which also says that the sender lives. */
export function alr(
  talker: string,
  alert?: { number: number; at: number; active: boolean; acknowledged: boolean; text: string },
): string {
  if (!alert) return sentence(`${talker}ALR`, ['', '', 'V', 'V', '']);
  const { number, at, active, acknowledged, text } = alert;
  const fields = [utc(at), String(number).padStart(3, '0'), active ? 'A' : 'V', acknowledged ? 'A' : 'V'];
  return sentence(`${talker}ALR`, fields, text);
}
