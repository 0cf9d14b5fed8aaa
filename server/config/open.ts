import { parse } from 'yaml';
import type { ConfigChange, ConfigSet, ConfigTold } from '../../shared/config.ts';
import type { Settings } from '../../shared/settings.ts';
import { edit, type Path, type Written } from './edit.ts';
import { ConfigError } from './faults.ts';
import { consequence, mayBeSet, SHOWN, TAKEN_OVER } from './keys.ts';
import { parseConfig } from './load.ts';
import { type Config, configSchema } from './schema.ts';
import { nameInstruments, toSettings } from './settings.ts';
import { readText, replaceText, whyNotWritable } from './write.ts';

export interface ConfigFile {
  /** What the file says, read anew. `settings` are those that hold. */
  told(settings: Settings): Promise<Omit<ConfigTold, 'fitting'>>;
  /**
   * What these changes do, and unless `tryOnly` they are written. `settings` are to be taken over then. Throws a ConfigError in words
   * when the file would not be legal, and a refusal (ConfigRefused) when it cannot be written; then nothing has changed.
   */
  change(set: ConfigSet, tryOnly: boolean): Promise<{ changes: ConfigChange[]; settings: Settings }>;
}

export class ConfigRefused extends Error {
  override name = 'ConfigRefused';
}

/** For a daemon without a config file: a rehearsal. */
export const NO_FILE = 'This is a rehearsal: there is no hawse.yaml, the boat is invented. Nothing is kept.';

/** The config file of the running daemon; `running` is what it was started with. */
export function openConfigFile(file: string, running: Config): ConfigFile {
  let holds = running;
  /** One change after the other: each begins with what the one before has left. */
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    return mine;
  };

  async function told(settings: Settings) {
    const why = await whyNotWritable(file);
    const text = await readText(file).catch(() => '');
    const now = read(text);
    const fault = now ? undefined : await legal(text, file);
    const unusable =
      why ?? (fault === undefined ? undefined : `The file has been edited and is not legal now:\n${fault}`);
    return {
      file,
      ...(unusable === undefined ? {} : { why: unusable }),
      fields: fieldsOf(settings, treeOf(text)),
      instruments: nameInstruments(holds.instruments).map(({ id, ...one }) => ({ id, says: saysOf(one) })),
      waiting: now ? differences(holds, now, treeOf(text)) : [],
    };
  }

  async function change(set: ConfigSet, tryOnly: boolean) {
    const why = await whyNotWritable(file);
    if (why !== undefined) throw new ConfigRefused(why);
    const text = await readText(file);
    const old = treeOf(text);
    let changed = text;
    for (const [key, asked] of Object.entries(set)) {
      if (!mayBeSet(key))
        throw new ConfigError(
          `"${key}" is no key that the page writes. What runs programs, who may do what, and how long the log is kept is changed in ${file} by hand.`,
        );
      const path = pathOf(key);
      changed = edit(changed, path, written(asked, at(old, path)));
    }
    const next = parseConfig(changed, file);
    const settings = toSettings({ ...holds, ...partOf(next) });
    nameInstruments(next.instruments);
    const changes = differences(holds, next, treeOf(changed), old);
    if (!tryOnly && changed !== text) await replaceText(file, changed);
    if (!tryOnly) holds = { ...holds, ...partOf(next) };
    return { changes, settings };
  }

  return {
    told: (settings) => inTurn(() => told(settings)),
    change: (set, tryOnly) => inTurn(() => change(set, tryOnly)),
  };
}

/** What a daemon without a file tells: the figures that hold. */
export const toldWithoutFile = (settings: Settings): Omit<ConfigTold, 'fitting'> => ({
  why: NO_FILE,
  fields: fieldsOf(settings, {}),
  instruments: [],
  waiting: [],
});

type Tree = Record<string, unknown>;

const pathOf = (key: string): Path =>
  key.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));

function at(tree: unknown, path: Path): unknown {
  let here = tree;
  for (const step of path)
    here = typeof here === 'object' && here !== null ? (here as Tree)[step] : undefined;
  return here ?? undefined;
}

const treeOf = (text: string): Tree => {
  try {
    const parsed: unknown = parse(text);
    return typeof parsed === 'object' && parsed !== null ? (parsed as Tree) : {};
  } catch {
    return {};
  }
};

function read(text: string): Config | undefined {
  return configSchema.safeParse(treeOf(text)).data;
}

async function legal(text: string, file: string): Promise<string | undefined> {
  try {
    parseConfig(text, file);
    return undefined;
  } catch (error) {
    return (error as Error).message;
  }
}

const partOf = (config: Config) =>
  Object.fromEntries(TAKEN_OVER.map((part) => [part, config[part]])) as Pick<
    Config,
    (typeof TAKEN_OVER)[number]
  >;

const asWritten = (value: unknown): string | undefined =>
  value === undefined ? undefined : typeof value === 'string' ? value : JSON.stringify(value);

function fieldsOf(settings: Settings, tree: Tree): ConfigTold['fields'] {
  return Object.entries(SHOWN).map(([key, figure]) => {
    const value = figure(settings);
    const says = asWritten(at(tree, pathOf(key)));
    return {
      key,
      ...(value === undefined ? {} : { value }),
      ...(says === undefined ? {} : { written: says }),
    };
  });
}

const NUMBER = /^[-+]?\d+(\.\d+)?$/;
const WITH_UNIT = /^[-+]?\d+(?:\.\d+)?\s*([^\d\s.].*)$/;

/** As it goes into the file. Who sees "34 ft" and types 35 means feet. */
function written(asked: ConfigSet[string], stands: unknown): Written {
  if (asked === null) return undefined;
  if (typeof asked !== 'string') return asked;
  const text = asked.trim();
  if (!NUMBER.test(text)) return text;
  const unit = typeof stands === 'string' ? WITH_UNIT.exec(stands.trim())?.[1] : undefined;
  return unit === undefined ? Number(text) : `${text} ${unit}`;
}

/** Every key whose meaning differs; a list is one key. */
function differences(from: Config, to: Config, written: Tree, before?: Tree): ConfigChange[] {
  const [old, fresh] = [leaves(from), leaves(to)];
  return [...new Set([...old.keys(), ...fresh.keys()])]
    .filter((key) => old.get(key) !== fresh.get(key))
    .map((key) => {
      const was = before === undefined ? old.get(key) : (asWritten(at(before, pathOf(key))) ?? old.get(key));
      const is = asWritten(at(written, pathOf(key))) ?? fresh.get(key);
      return {
        key,
        ...(was === undefined ? {} : { from: was }),
        ...(is === undefined ? {} : { to: is }),
        ...consequence(key),
      };
    });
}

function leaves(config: Config): Map<string, string> {
  const found = new Map<string, string>();
  const walk = (value: unknown, key: string): void => {
    if (value === undefined) return;
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      found.set(key, asWritten(value)!);
      return;
    }
    for (const [step, inner] of Object.entries(value)) walk(inner, key === '' ? step : `${key}.${step}`);
  };
  walk(config, '');
  return found;
}

/** An input as the file lists it, e.g. "serial /dev/ttyUSB0, baud auto". */
function saysOf(one: Omit<ReturnType<typeof nameInstruments>[number], 'id'>): string {
  return Object.entries(one)
    .filter(([, value]) => value !== undefined && value !== false)
    .map(([key, value]) => (value === true ? key : `${key} ${value}`))
    .join(', ');
}
