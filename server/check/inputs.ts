import { setTimeout as wait } from 'node:timers/promises';
import type { InputView } from '../../shared/state.ts';
import type { Config } from '../config/schema.ts';
import { nameInstruments } from '../config/settings.ts';
import { portFault } from '../intake/ports.ts';
import { type InputReport, portOf, type Source } from '../listen/report.ts';
import { listen } from '../listening.ts';
import { type Finding, fault, good, look } from './finding.ts';

const LISTEN_SECONDS = 5;
const AGAIN_MS = 100;

/** What was found on the inputs, and how far the receiver's UTC is from this computer's clock. */
export interface InputsFound {
  findings: Finding[];
  clockOffset?: number;
}

/** Opens every input of the config as the watch would, listens a few seconds, and closes it again. */
export async function checkInputs(config: Config, seconds = LISTEN_SECONDS): Promise<InputsFound> {
  const sources = nameInstruments(config.instruments);
  if (sources.length === 0) return { findings: [] };
  const ears = listen(sources, config);
  const isAllHeard = () => ears.heard().inputs.every(({ sentences }) => sentences > 0);
  // A second at least: what a receiver says in it tells the time too.
  while (ears.seconds() < seconds && !(ears.seconds() > 1.5 && isAllHeard())) await wait(AGAIN_MS);
  const { inputs } = ears.heard();
  const clockOffset = ears.clockOffset();
  await ears.stop();
  const findings = await Promise.all(sources.map((source, i) => judge(source, inputs[i]!, seconds)));
  return { findings, ...(clockOffset === undefined ? {} : { clockOffset }) };
}

async function judge(source: Source, input: InputReport, seconds: number): Promise<Finding> {
  const name = `${input.id}, ${portOf(source)}`;
  if ('serial' in source) {
    const denied = await portFault(source.serial);
    if (denied) return fault('inputs', `${input.id}: ${denied.text}`, denied.cure);
  }
  const isOpen = input.up || ('serial' in source && input.detail.includes('is open'));
  if (!isOpen) return fault('inputs', `${name}: ${input.detail}`, cureOf(source));
  return heardOn(name, input, seconds);
}

function heardOn(name: string, input: InputReport, seconds: number): Finding {
  const { checksum, malformed } = input.rejected;
  const refused = checksum + malformed;
  const rate = input.baud === undefined ? '' : ` at ${input.baud} baud`;
  if (input.sentences === 0 && refused > 0)
    return fault(
      'inputs',
      `${name}: all ${refused} sentences were refused${rate}; the last ${input.lastRefusal}`,
      input.advice ?? 'hawse listen shows more',
    );
  if (input.sentences === 0)
    return look(
      'inputs',
      `${name}: open, and nothing has arrived in ${seconds} s`,
      'switch the instruments on; hawse listen shows more',
    );
  if (input.advice)
    return look('inputs', `${name}: ${refused} refused of ${input.sentences + refused}${rate}`, input.advice);
  return good('inputs', `${name}: sentences arrive${rate}`);
}

function cureOf(source: Source): string {
  if ('serial' in source)
    return 'end the program that holds it (a plotter, gpsd, a terminal), or name another port';
  if ('udp' in source) return 'end the program that holds the port, or let the gateway send to another one';
  return 'is the gateway switched on, in the same network, and is that its address? hawse tries for ever';
}

/** The same as a hawse tells it that keeps its watch now and holds the ports. */
export const inputsOfWatch = (inputs: readonly InputView[]): Finding[] =>
  inputs.map((input) => {
    if (!input.up)
      return fault('inputs', `${input.id}: ${input.detail}`, 'see to it: the watch tries again by itself');
    return input.sentences > 0
      ? good('inputs', `${input.id}: sentences arrive at the hawse that is running`)
      : look(
          'inputs',
          `${input.id}: nothing has arrived`,
          'switch the instruments on; see the page "Instruments"',
        );
  });
