import { signal } from '@preact/signals';
import type { PlanRequest } from '../../../shared/plan/request.ts';
import { fromKnots, toKnots } from '../../../shared/quantities/units.ts';
import type { Boat, Cable } from '../../../shared/settings.ts';
import type { State } from '../../../shared/state.ts';
import { typed } from '../../format.ts';
import { words } from '../../words.ts';
import { type ChainChoice, chainOf } from './chain.ts';
import { FIELDS, fieldText, type Key, rangeOf, toSI, unitOf } from './fields.ts';

/** What the crew has written so far. It lives as long as the page is open: tomorrow's anchorage starts afresh. */

/** One field: what was typed and in which unit, and what that is in SI (undefined: empty, or no number). */
export interface Entry {
  text: string;
  unit: string;
  value?: number;
}

export interface Draft {
  entries: Partial<Record<Key, Entry>>;
  chain: ChainChoice;
}

export const draft = signal<Draft>({ entries: {}, chain: 'boat' });

export function write(key: Key, text: string): void {
  const unit = unitOf(key);
  const value = typed(text);
  set(key, { text, unit, ...(value !== undefined && { value: toSI(value, unit) }) });
}

export const put = (key: Key, value: number): void => set(key, entryOf(key, value));

export function chooseChain(chain: ChainChoice): void {
  draft.value = { ...draft.value, chain };
}

function set(key: Key, entry: Entry): void {
  draft.value = { ...draft.value, entries: { ...draft.value.entries, [key]: entry } };
}

/** What is sent is what is read: the rounding of the field counts. */
function entryOf(key: Key, value: number): Entry {
  const unit = unitOf(key);
  const text = fieldText(key, value);
  return { text, unit, value: toSI(typed(text)!, unit) };
}

/** As typed while the unit is the same; a change of unit writes the value anew. */
export function textOf(key: Key, entry: Entry | undefined): string {
  if (!entry) return '';
  return entry.unit === unitOf(key) || entry.value === undefined ? entry.text : fieldText(key, entry.value);
}

/** The least wind that a crew prepares for when nothing worse is known: a fresh to strong breeze, kn (common practice). */
const WIND_AT_LEAST = 25;

/** Fills what nobody has written yet from what the boat knows; what is written stays. */
export function filled(before: Draft, state: State): Draft {
  const { cable, watch } = state;
  const feared = toKnots(
    Math.max(fromKnots(WIND_AT_LEAST), watch.limits.windAbove ?? 0, FIELDS.wind.live?.(state) ?? 0),
  );
  const known: Partial<Record<Key, number | undefined>> = {
    depth: FIELDS.depth.live?.(state),
    wind: fromKnots(Math.ceil(feared - 0.1)),
    stream: FIELDS.stream.live?.(state),
    chainLength: cable.length,
    ropeLength: cable.rope,
    massPerMetre: cable.massPerMetre,
  };
  const fresh = (Object.keys(known) as Key[]).filter(
    (key) => before.entries[key] === undefined && known[key] !== undefined,
  );
  if (fresh.length === 0) return before;
  const entries = { ...before.entries };
  for (const key of fresh) entries[key] = entryOf(key, known[key]!);
  return { ...before, entries };
}

export type Faults = Partial<Record<Key, string>>;

/** The request that the draft makes, or what is wrong with it at which field; empty optional fields are left out. */
export function requestOf(
  { entries, chain: choice }: Draft,
  boat: Boat,
  cable: Cable,
): { request: PlanRequest } | { faults: Faults } {
  const faults: Faults = {};
  const read = (key: Key): number | undefined => {
    const fault = faultOf(key, entries[key]);
    if (fault !== undefined) faults[key] = fault;
    return entries[key]?.value;
  };
  const optional = <K extends Key>(...keys: K[]) =>
    Object.fromEntries(
      keys.flatMap((key) => {
        const value = read(key);
        return value === undefined ? [] : [[key, value]];
      }),
    ) as Partial<Record<K, number>>;
  const depth = read('depth');
  const wind = read('wind');
  const chain = chainOf(choice, cable, choice === 'mass' ? read('massPerMetre') : undefined);
  const rest = optional(
    'riseToHigh',
    'fallToLow',
    'stream',
    'chainLength',
    'ropeLength',
    'room',
    'slope',
    'veer',
  );
  if (depth === undefined || wind === undefined || !chain || Object.keys(faults).length > 0) {
    return { faults };
  }
  return { request: { depth, wind, chain, boat: planBoat(boat), ...rest } };
}

function faultOf(key: Key, entry: Entry | undefined): string | undefined {
  const { needed, least, most } = FIELDS[key];
  const text = entry?.text.trim() ?? '';
  if (text === '') return needed && words.planner.needed;
  if (entry?.value === undefined) return words.planner.noNumber;
  const within = entry.value >= least - 1e-9 && entry.value <= most + 1e-9;
  const range = rangeOf(key);
  return within ? undefined : words.planner.allowed(range.least, range.most, unitOf(key));
}

/** Sent along, so that the answer is for the very boat that is drawn. */
function planBoat({ hull, length, beam, draft: depth, windage, displacement, roller, antenna }: Boat) {
  return {
    hull,
    length,
    beam,
    draft: depth,
    windage,
    roller,
    antenna,
    ...(displacement !== undefined && { displacement }),
  };
}
