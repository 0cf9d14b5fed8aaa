import type { Decoder } from './decoder.ts';
import { type Fields, LONGEST_SENTENCE } from './fields.ts';
import type { AlertSentence, Observation } from './observation.ts';
import { timeOfDay } from './time.ts';

type Alert<Id extends AlertSentence['id']> = Extract<AlertSentence, { id: Id }>;

function say(out: Observation[], sentence: AlertSentence): void {
  out.push({ kind: 'alert-sentence', sentence });
}

/** A letter of the standard's list, '' when blank. */
function letter(fields: Fields, i: number, allowed: string, what: string): string {
  const code = fields.letter(i, allowed, what);
  return code === 0 ? '' : String.fromCharCode(code);
}

/** `time,id,condition,acknowledged,text` (JRC JR-8600 manual p. 161); condition A: the threshold is exceeded. */
const ALR: Decoder = {
  id: 'ALR',
  least: 5,
  most: 5,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    const sentence: Alert<'ALR'> = {
      id: 'ALR',
      alertId: fields.words(1),
      condition: letter(fields, 2, 'AV', 'condition'),
      acknowledged: letter(fields, 3, 'AV', 'acknowledgement'),
      text: fields.words(4),
    };
    if (time !== undefined) sentence.timeOfDay = time;
    say(out, sentence);
  },
};

/** Acknowledges the ALR of this id (JRC JLN-900 manual p. 239). */
const ACK: Decoder = {
  id: 'ACK',
  least: 1,
  most: 1,
  read(fields, out) {
    if (fields.blank(0)) fields.fail('names no alert');
    say(out, { id: 'ACK', alertId: fields.words(0) });
  },
};

/** Parts, time, category, priority, state, identity and text of an alert (JRC JLN-900 p. 239–241, JFE-400 p. 93). */
const ALF: Decoder = {
  id: 'ALF',
  least: 13,
  most: 13,
  read(fields, out) {
    // Makers number the only part 0 or 1, so 0 is not refused.
    const total = fields.whole(0, 1, 2, 'number of parts');
    const number = fields.whole(1, 0, 2, 'part');
    const sequence = fields.whole(2, 0, 9, 'sequence number');
    const time = timeOfDay(fields, 3);
    const category = letter(fields, 4, 'ABC', 'category');
    const priority = letter(fields, 5, 'EAWC', 'priority');
    const state = letter(fields, 6, 'VSAOUN', 'state');
    const revision = fields.whole(10, 0, 99, 'revision');
    const escalation = fields.whole(11, 0, 9, 'escalation');
    if (total === undefined || number === undefined) {
      fields.fail('part numbers are blank');
      return;
    }
    const sentence: Alert<'ALF'> = {
      id: 'ALF',
      total,
      number,
      alertId: fields.words(8),
      text: fields.words(12),
    };
    if (sequence !== undefined) sentence.sequence = sequence;
    if (time !== undefined) sentence.timeOfDay = time;
    if (category !== '') sentence.category = category;
    if (priority !== '') sentence.priority = priority;
    if (state !== '') sentence.state = state;
    if (!fields.blank(7)) sentence.manufacturer = fields.words(7);
    if (!fields.blank(9)) sentence.instance = fields.words(9);
    if (revision !== undefined) sentence.revision = revision;
    if (escalation !== undefined) sentence.escalation = escalation;
    say(out, sentence);
  },
};

/** Cyclic list of the active alerts, `total,number,sequence,count` and four fields for each (JRC JFE-400 p. 93, JFE-680 p. 51). */
const ALC: Decoder = {
  id: 'ALC',
  least: 4,
  most: LONGEST_SENTENCE,
  read(fields, out) {
    const total = fields.whole(0, 1, 99, 'number of parts');
    const number = fields.whole(1, 1, 99, 'part');
    const sequence = fields.whole(2, 0, 99, 'sequence number');
    const count = fields.whole(3, 0, LONGEST_SENTENCE, 'number of alerts');
    if (total === undefined || number === undefined || count === undefined) {
      fields.fail('part numbers or number of alerts are blank');
      return;
    }
    const needed = 4 + 4 * count;
    if (fields.count < needed || !fields.blankFrom(needed))
      fields.fail(`has ${fields.count} fields, not ${needed} for ${count} alerts`);
    if (fields.fault !== undefined) return;
    const sentence: Alert<'ALC'> = { id: 'ALC', total, number, entries: [] };
    if (sequence !== undefined) sentence.sequence = sequence;
    for (let i = 4; i < needed; i += 4) {
      const entry: Alert<'ALC'>['entries'][number] = { alertId: fields.words(i + 1) };
      if (!fields.blank(i)) entry.manufacturer = fields.words(i);
      if (!fields.blank(i + 2)) entry.instance = fields.words(i + 2);
      if (!fields.blank(i + 3)) entry.revision = fields.words(i + 3);
      sentence.entries.push(entry);
    }
    say(out, sentence);
  },
};

/**
 * Command to an alert: A acknowledge, Q query, O transfer, S silence. Makers disagree whether the command or the fixed letter C
 * comes first (JRC and Furuno manuals against IEC 61162-1 edition 6); C is no command, so both orders can be read.
 */
const ACN: Decoder = {
  id: 'ACN',
  least: 6,
  most: 6,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    const first = letter(fields, 4, 'AQOSC', 'command');
    const second = letter(fields, 5, 'AQOSC', 'command');
    const command = first === 'C' ? second : first;
    if (command === '' || command === 'C' || (first !== 'C' && second !== 'C'))
      fields.fail(`command is "${first},${second}", not one of A Q O S beside a C`);
    const sentence: Alert<'ACN'> = { id: 'ACN', alertId: fields.words(2), command };
    if (time !== undefined) sentence.timeOfDay = time;
    if (!fields.blank(1)) sentence.manufacturer = fields.words(1);
    if (!fields.blank(3)) sentence.instance = fields.words(3);
    say(out, sentence);
  },
};

/** Pulse of a device: seconds between pulses, A for normal, and a number that counts 0–9 (Furuno BR-500 manual p. 58). */
const HBT: Decoder = {
  id: 'HBT',
  least: 3,
  most: 3,
  read(fields, out) {
    const interval = fields.number(0, 0, 999, 'interval');
    const status = letter(fields, 1, 'AV', 'status');
    const sequence = fields.whole(2, 0, 9, 'sequence number');
    const sentence: Alert<'HBT'> = { id: 'HBT', ok: status === 'A' };
    if (interval !== undefined) sentence.interval = interval;
    if (sequence !== undefined) sentence.sequence = sequence;
    say(out, sentence);
  },
};

export const alertDecoders: Decoder[] = [ALR, ACK, ALF, ALC, ACN, HBT];
