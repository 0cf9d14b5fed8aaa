import { FOOT, KNOT } from '../../../shared/quantities/units.ts';
import type { State } from '../../../shared/state.ts';
import { lengthUnit, speedUnit } from '../../prefs.ts';

/** What a plan may be asked, one row an input. Pure but for the units that this screen is set to. */

export type Key =
  | 'depth'
  | 'riseToHigh'
  | 'fallToLow'
  | 'wind'
  | 'stream'
  | 'massPerMetre'
  | 'chainLength'
  | 'ropeLength'
  | 'room'
  | 'slope'
  | 'veer';

type Unit = 'm' | 'ft' | 'kn' | 'm/s' | '°' | 'kg/m';

interface Field {
  /** The first is SI; the screen's unit is one of them. */
  units: readonly [Unit, ...Unit[]];
  /** SI; as the planner allows (shared/plan/request.ts, held alike by a test). */
  least: number;
  most: number;
  /** How far one press goes, for each of the units. */
  steps: readonly [number, ...number[]];
  /** Without it there is no plan. */
  needed?: true;
  /** What the boat's instruments say now, SI. */
  live?: (state: State) => number | undefined;
}

const LENGTH = ['m', 'ft'] as const;
const SPEED = ['m/s', 'kn'] as const;

export const FIELDS: Record<Key, Field> = {
  depth: {
    units: LENGTH,
    least: 0.5,
    most: 200,
    steps: [0.5, 1],
    needed: true,
    live: ({ vessel }) => vessel.depth?.value.surface,
  },
  riseToHigh: { units: LENGTH, least: 0, most: 20, steps: [0.1, 0.5] },
  fallToLow: { units: LENGTH, least: 0, most: 20, steps: [0.1, 0.5] },
  wind: {
    units: SPEED,
    least: 0,
    most: 80,
    steps: [2, 5],
    needed: true,
    live: ({ vessel }) => vessel.windGround?.value.speed,
  },
  stream: {
    units: SPEED,
    least: 0,
    most: 6,
    steps: [0.2, 0.5],
    live: ({ vessel, watch }) => vessel.stream?.value.drift ?? watch.lie?.stream?.drift.value,
  },
  massPerMetre: { units: ['kg/m'], least: 0.05, most: 50, steps: [0.1], needed: true },
  chainLength: { units: LENGTH, least: 1, most: 1000, steps: [5, 10] },
  ropeLength: { units: LENGTH, least: 0, most: 1000, steps: [5, 10] },
  room: { units: LENGTH, least: 0, most: 5000, steps: [5, 10] },
  slope: { units: ['°'], least: -30, most: 30, steps: [1] },
  veer: { units: LENGTH, least: 1, most: 1000, steps: [1, 5] },
};

const IN_SI: Record<Unit, number> = { m: 1, ft: FOOT, 'm/s': 1, kn: KNOT, '°': 1, 'kg/m': 1 };

/** The unit that this screen shows a field in. */
export const unitOf = (key: Key): Unit =>
  FIELDS[key].units.find((unit) => unit === lengthUnit.value || unit === speedUnit.value) ??
  FIELDS[key].units[0];

export const toSI = (value: number, unit: Unit): number => value * IN_SI[unit];
export const fromSI = (value: number, unit: Unit): number => value / IN_SI[unit];

/** Decimals in an input field. */
const decimals = (key: Key): number => (key === 'massPerMetre' ? 2 : 1);

/** A value of SI as the text of its field, without needless zeros. */
export function fieldText(key: Key, value: number): string {
  return String(Number(fromSI(value, unitOf(key)).toFixed(decimals(key)))).replace('-', '−');
}

/** The least and the most that a field takes in this screen's unit, rounded to the inside. */
export function rangeOf(key: Key): { least: number; most: number } {
  const { least, most } = FIELDS[key];
  const unit = unitOf(key);
  const grain = 10 ** decimals(key);
  // The tiny shift keeps what is round already from being rounded away by the last bit of a quotient.
  return {
    least: Math.ceil(fromSI(least, unit) * grain - 1e-6) / grain,
    most: Math.floor(fromSI(most, unit) * grain + 1e-6) / grain,
  };
}

/** The next round value up or down from an SI value, SI; an empty field starts at its least. */
export function stepped(key: Key, value: number | undefined, up: boolean): number {
  const unit = unitOf(key);
  const step = FIELDS[key].steps[FIELDS[key].units.indexOf(unit)]!;
  const { least, most } = rangeOf(key);
  const empty = Math.max(least, 0);
  const steps = value === undefined ? empty / step : fromSI(value, unit) / step;
  const next = up ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
  return toSI(Math.min(most, Math.max(least, next * step)), unit);
}
