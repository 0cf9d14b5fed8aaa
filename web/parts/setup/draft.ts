import { computed, signal } from '@preact/signals';
import type { ConfigChange, ConfigField, ConfigSet, ConfigTold } from '../../../shared/config.ts';
import type { ConfigChanged } from '../../../shared/messages/config.ts';
import type { Boat } from '../../../shared/settings.ts';
import { call, type Outcome } from '../../commands.ts';
import type { FieldKey } from '../../words/setup.ts';
import { metresOf, tidied } from './measure.ts';

/** What hawse.yaml says, and what a person has typed and not written yet. */

export const config = signal<ConfigTold | undefined>(undefined);
export const trouble = signal<Outcome>(undefined);
/** By key: text as typed, '' to unset; a deviation card. */
export const typed = signal<Readonly<Record<string, string | [number, number][]>>>({});
/** What the typed would do, once asked; any further typing makes it void. */
export const tried = signal<ConfigChange[] | undefined>(undefined);
export const written = signal(false);
/** The figure that a finger is in. */
export const active = signal<FieldKey | undefined>(undefined);

const fields = computed(() => new Map(config.value?.fields.map((one) => [one.key, one])));

export const hasFile = computed(() => config.value?.file !== undefined);

export const fieldOf = (key: string): ConfigField | undefined => fields.value.get(key);

/** What stands in the input. */
export function textOf(key: string): string {
  const own = typed.value[key];
  return typeof own === 'string' ? own : stands(key);
}

/** As the file says it; without a file the figure that holds. */
function stands(key: string): string {
  const { written, value } = fieldOf(key) ?? {};
  if (hasFile.value || value === undefined) return written ?? '';
  return typeof value === 'number' ? String(Math.round(value * 100) / 100) : value;
}

export function put(key: string, value: string | [number, number][]): void {
  const rest = Object.fromEntries(Object.entries(typed.peek()).filter(([other]) => other !== key));
  const isBack = typeof value === 'string' && tidied(value) === (fieldOf(key)?.written ?? '');
  typed.value = isBack ? rest : { ...rest, [key]: value };
  tried.value = undefined;
  written.value = false;
}

export function drop(): void {
  typed.value = {};
  tried.value = undefined;
}

/** Metres as typed, else as they hold. */
export function metres(key: FieldKey): number | undefined {
  const own = typed.value[key];
  const field = fieldOf(key);
  const told = typeof own === 'string' ? metresOf(own, field?.written) : undefined;
  return told ?? (typeof field?.value === 'number' ? field.value : undefined);
}

/** The boat as she would be, for the drawing; `boat` is she as she is. */
export function boatTyped(boat: Boat): Boat {
  const hull = textOf('boat.hull');
  const at = (key: FieldKey, now: number) => metres(key) ?? now;
  const below = metres('boat.sounder.belowWaterline') ?? boat.sounder.belowWaterline;
  return {
    ...boat,
    hull: hull === 'monohull' || hull === 'catamaran' || hull === 'trimaran' ? hull : boat.hull,
    length: Math.min(60, Math.max(3, at('boat.length', boat.length))),
    beam: Math.min(30, Math.max(0.5, at('boat.beam', boat.beam))),
    draft: Math.min(10, Math.max(0.1, at('boat.draft', boat.draft))),
    roller: { height: Math.min(6, Math.max(0, at('boat.roller.height', boat.roller.height))) },
    antenna: {
      aftOfRoller: at('boat.antenna.aftOfRoller', boat.antenna.aftOfRoller),
      toStarboard: at('boat.antenna.toStarboard', boat.antenna.toStarboard),
    },
    sounder: {
      aftOfRoller: at('boat.sounder.aftOfRoller', boat.sounder.aftOfRoller),
      ...(below === undefined ? {} : { belowWaterline: below }),
    },
  };
}

export async function load(): Promise<void> {
  const { trouble: why, answer } = await call('GET', '/config');
  trouble.value = why;
  if (why === undefined) config.value = answer as ConfigTold;
}

const asked = (): ConfigSet =>
  Object.fromEntries(
    Object.entries(typed.peek()).map(([key, value]) => {
      const text = typeof value === 'string' ? tidied(value) : value;
      return [key, text === '' ? null : text];
    }),
  );

/** Asks what the typed would do. */
export async function see(): Promise<Outcome> {
  const { trouble: why, answer } = await call('PATCH', '/config', { set: asked(), try: true });
  tried.value = why === undefined ? (answer as ConfigChanged).changes : undefined;
  return why;
}

export async function write(): Promise<Outcome> {
  const { trouble: why, answer } = await call('PATCH', '/config', { set: asked() });
  if (why !== undefined) return why;
  config.value = (answer as ConfigChanged).config;
  drop();
  written.value = true;
  return undefined;
}
