import { chainOfSize } from '../../shared/cable/chain.ts';
import type { Settings } from '../../shared/settings.ts';
import { ConfigError } from './faults.ts';
import type { Config, Instrument } from './schema.ts';

/** An input with its id: the one given, else kind and number in order, e.g. udp1. */
export type NamedInstrument = Instrument & { id: string };

export function nameInstruments(instruments: Instrument[]): NamedInstrument[] {
  const counts = { serial: 0, udp: 0, tcp: 0 };
  const named = instruments.map((instrument) => {
    const kind = 'serial' in instrument ? 'serial' : 'udp' in instrument ? 'udp' : 'tcp';
    counts[kind]++;
    return { ...instrument, id: instrument.id ?? `${kind}${counts[kind]}` };
  });
  const double = named.find((one, index) => named.findIndex((other) => other.id === one.id) !== index);
  if (double)
    throw new ConfigError(`instruments: the id "${double.id}" is used twice; each input needs its own.`);
  return named;
}

/** Common mass of a cruising boat's chain when the file says nothing: 10 mm, see the chain table. */
const CHAIN_WHEN_UNTOLD_MM = 10;

/** The engine's settings from a checked config. */
export function toSettings(config: Config): Settings {
  const { boat, cable, watch } = config;
  const size = cable.size === undefined ? undefined : cable.size * 1000;
  const chain = chainOfSize(size ?? CHAIN_WHEN_UNTOLD_MM);
  const massPerMetre = cable.massPerMetre ?? chain?.massPerMetre;
  if (massPerMetre === undefined) {
    throw new ConfigError(
      `cable.size: ${size} mm is not in the chain table; give cable.massPerMetre from the maker's data instead.`,
    );
  }
  const workingLoad =
    cable.workingLoad ?? (cable.massPerMetre === undefined ? chain?.workingLoad : undefined);
  const { depthBelow, depthAbove, underKeelBelow, windAbove, windShift } = watch;
  return {
    boat: {
      name: boat.name,
      hull: boat.hull,
      length: boat.length,
      beam: boat.beam ?? boat.length / (boat.hull === 'monohull' ? 3 : 1.9),
      draft: boat.draft,
      roller: boat.roller,
      antenna: boat.antenna,
      sounder: known({ belowWaterline: boat.sounder.belowWaterline, aftOfRoller: boat.sounder.aftOfRoller }),
      windage: known({ area: boat.windage.area }),
      ...known({ displacement: boat.displacement, mmsi: boat.mmsi }),
    },
    cable: {
      massPerMetre,
      ...known({
        size,
        workingLoad,
        length: cable.length,
        rope: cable.rope,
        veered: cable.veered,
        counter: cable.counter,
        marks: cable.marks,
      }),
    },
    weigh: known(config.weigh),
    limits: known({ depthBelow, depthAbove, underKeelBelow, windAbove, windShift }),
    circle: { margin: watch.margin, ...known({ radius: watch.circleRadius }) },
    deviation: watch.deviation,
    checksumOptional: nameInstruments(config.instruments)
      .filter((instrument) => instrument.checksumOptional)
      .map((instrument) => instrument.id),
  };
}

type Known<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};

/** The object without its undefined members: unknown is absent. */
export function known<T extends object>(value: T): Known<T> {
  return Object.fromEntries(Object.entries(value).filter(([, member]) => member !== undefined)) as Known<T>;
}
