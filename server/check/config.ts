import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ConfigError } from '../config/faults.ts';
import { loadConfig } from '../config/load.ts';
import type { Config } from '../config/schema.ts';
import { nameOutputs } from '../config/sections/raise.ts';
import { nameInstruments, toSettings } from '../config/settings.ts';
import { type Finding, fault, good, look } from './finding.ts';

/** The example beside the command, in a checkout and in the package. */
const EXAMPLE = ['../../../server/hawse.example.yaml', '../hawse.example.yaml']
  .map((path) => fileURLToPath(new URL(path, import.meta.url)))
  .find(existsSync);

/** hawse.yaml as `hawse keep` would read it; undefined when it would be refused. Each fault is a finding. */
export function checkConfig(file: string): { config?: Config; findings: Finding[] } {
  if (!existsSync(file))
    return {
      findings: [
        fault(
          'config',
          `there is no ${file}`,
          `cp ${EXAMPLE ?? 'hawse.example.yaml'} ${file}, then fill it in`,
        ),
      ],
    };
  try {
    const config = loadConfig(file);
    nameInstruments(config.instruments);
    nameOutputs(config.raise);
    toSettings(config);
    if (config.instruments.length === 0)
      return {
        config,
        findings: [
          fault(
            'config',
            `${file}: instruments: none is listed`,
            'hawse listen finds them and says what to write there',
          ),
        ],
      };
    return { config, findings: [good('config', `${file} is understood`), ...doubts(config)] };
  } catch (error) {
    if (!(error instanceof ConfigError)) throw error;
    return {
      findings: error.message.split('\n').map((line) => fault('config', line, `mend it in ${file}`)),
    };
  }
}

/** Figures that pass the schema and are seldom meant. */
function doubts({ boat, cable, watch, instruments }: Config): Finding[] {
  const found: Finding[] = [];
  if (boat.antenna.aftOfRoller > boat.length)
    found.push(
      look(
        'config',
        `boat.antenna.aftOfRoller is ${boat.antenna.aftOfRoller} m, more than the length of the boat (${boat.length} m)`,
        'measure it along the centre line from the bow roller',
      ),
    );
  if (
    cable.length !== undefined &&
    cable.veered !== undefined &&
    cable.veered > cable.length + (cable.rope ?? 0)
  )
    found.push(
      look(
        'config',
        'cable.veered is more than there is on board',
        'set cable.length, cable.rope or cable.veered',
      ),
    );
  if (watch.depthBelow === undefined && watch.windAbove === undefined)
    found.push(
      look(
        'config',
        'watch sets no limit for depth or wind',
        'set depthBelow and windAbove, here or on the page',
      ),
    );
  const serials = instruments.flatMap((one) => ('serial' in one ? [one.serial] : []));
  const twice = serials.find((path, i) => serials.indexOf(path) !== i);
  if (twice)
    found.push(
      fault('config', `instruments: ${twice} is listed twice`, 'a port can be opened once: take one away'),
    );
  return found;
}
