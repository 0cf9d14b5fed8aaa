import { journalInputs } from '../../server/journal/read.ts';

/** A command that was sent, by its number: every one has its own veered length, so that its record is known again. */
const BASE = 10;
const STEP = 0.001;
export const veeredOf = (number: number): number => Math.round((BASE + number * STEP) * 1000) / 1000;
const numberOf = (veered: number): number => Math.round((veered - BASE) / STEP);

/** Knows from outside what was acknowledged, and reads the journal to see whether it is there, once, in order. */
export interface Oracle {
  sent: number;
  acknowledged: Set<number>;
  /** Sentences that the daemon said it had heard before a command that was acknowledged after. */
  heardAtLeast: number;
  /** What the journal holds, so far as it was read. */
  lines: number;
  lastLine: number;
  commands: number[];
  faults: string[];
}

export const createOracle = (): Oracle => ({
  sent: 0,
  acknowledged: new Set(),
  heardAtLeast: 0,
  lines: 0,
  lastLine: 0,
  commands: [],
  faults: [],
});

/** Reads what is new in the journal of a dead daemon and judges; `from`: up to where it was read before. Returns how far it went. */
export async function judge(
  oracle: Oracle,
  data: string,
  firsts: readonly number[],
  from: number,
): Promise<number> {
  let last = from;
  const fault = (text: string) => void oracle.faults.push(text);
  const starts = new Set(firsts);
  for await (const input of journalInputs(data, from)) {
    if (!(input.at > last)) fault(`time went back: ${input.at} after ${last}`);
    last = input.at;
    if (input.kind === 'line') {
      const number = Number(/^\$PXTN,(\d+)\*/.exec(input.text)?.[1]);
      if (Number.isNaN(number)) continue;
      // Within a connection every number follows the last; a new connection may leave out what died in the old one.
      if (number <= oracle.lastLine) fault(`sentence ${number} is doubled (after ${oracle.lastLine})`);
      else if (number !== oracle.lastLine + 1 && !starts.has(number))
        fault(`sentences ${oracle.lastLine + 1} to ${number - 1} are lost from the middle`);
      oracle.lastLine = number;
      oracle.lines++;
    } else if (input.kind === 'command' && input.command.do === 'watch') {
      const veered = (input.command.change as { veered?: number }).veered;
      if (veered === undefined) continue;
      const number = numberOf(veered);
      const before = oracle.commands.at(-1) ?? 0;
      if (number <= before) fault(`command ${number} is doubled or misplaced (after ${before})`);
      if (number > oracle.sent) fault(`command ${number} was never sent`);
      oracle.commands.push(number);
    }
  }
  const kept = new Set(oracle.commands);
  for (const number of oracle.acknowledged)
    if (!kept.has(number)) fault(`command ${number} was acknowledged and is lost`);
  if (oracle.lines < oracle.heardAtLeast)
    fault(`${oracle.heardAtLeast} sentences were safe, ${oracle.lines} are there`);
  return last;
}
