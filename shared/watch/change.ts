import type { WatchChange } from '../commands.ts';
import type { Limits, Settings } from '../settings.ts';
import { drawSectors } from './sectors.ts';
import { LIMIT_KEYS, limit, type WatchState } from './state.ts';
import { decimetres, knots } from './words.ts';

interface Range {
  name: string;
  least: number;
  most: number;
  unit: string;
  show: (value: number) => string;
}
const metres = (name: string, least: number, most: number): Range => ({
  name,
  least,
  most,
  unit: 'm',
  show: decimetres,
});

/** What can be told, and what is possible: mistyped values are refused, unusual ones are not. */
const VEERED = metres('veered', 1, 1000);
const RADIUS = metres('circle radius', 1, 5000);
const LIMITS: Record<keyof Limits, Range> = {
  depthBelow: metres('least depth', 0, 500),
  depthAbove: metres('greatest depth', 0, 500),
  underKeelBelow: metres('least water under the keel', 0, 50),
  windAbove: { name: 'wind limit', least: 0.5, most: 80, unit: 'm/s', show: knots },
  windShift: {
    name: 'wind shift',
    least: 1,
    most: 180,
    unit: 'degrees',
    show: (value) => `${Math.round(value)}°`,
  },
};

export type Changed = { ok: true; words: string[] } | { ok: false; why: string };

/** Takes over a change of the watch, all of it or nothing; `words` tell what is different now. */
export function change(state: WatchState, settings: Settings, asked: WatchChange): Changed {
  const { veered, circleRadius, limits = {}, sectors } = asked;
  const drawn = sectors && drawSectors(sectors, state.mark);
  const faults = [fault(VEERED, veered), fault(RADIUS, circleRadius)];
  for (const key of LIMIT_KEYS) faults.push(fault(LIMITS[key], limits[key]));
  faults.push(crossed(state, settings, limits));
  if (drawn && !drawn.ok) faults.push(drawn.why);
  const why = faults.filter((text) => text !== undefined);
  if (why.length > 0) return { ok: false, why: why.join(' ') };

  const words: string[] = [];
  if (veered !== undefined) {
    state.told.veered = veered;
    words.push(`veered ${VEERED.show(veered)}`);
  }
  if (circleRadius !== undefined) {
    state.told.circleRadius = circleRadius;
    words.push(`circle ${circleRadius === null ? 'computed' : RADIUS.show(circleRadius)}`);
  }
  for (const key of LIMIT_KEYS) {
    const value = limits[key];
    if (value === undefined) continue;
    state.told.limits[key] = value;
    // Told again, a shift counts from the wind of now.
    if (key === 'windShift') delete state.wind;
    words.push(`${LIMITS[key].name} ${value === null ? 'not watched' : LIMITS[key].show(value)}`);
  }
  if (drawn?.ok) {
    state.told.sectors = drawn.sectors;
    const names = drawn.sectors.map(({ name }, i) => name ?? `number ${i + 1}`);
    words.push(names.length === 0 ? 'no sectors' : `sectors not to enter: ${names.join(', ')}`);
  }
  return { ok: true, words };
}

function fault({ name, least, most, unit }: Range, value: number | null | undefined): string | undefined {
  if (value === undefined || value === null || (value >= least && value <= most)) return undefined;
  return `${name}: ${value} is not a number from ${least} to ${most} ${unit}.`;
}

/** Limits of depth that no water can satisfy. */
function crossed(
  state: WatchState,
  settings: Settings,
  asked: NonNullable<WatchChange['limits']>,
): string | undefined {
  const value = (key: keyof Limits) =>
    asked[key] === undefined ? limit(state, settings, key) : (asked[key] ?? undefined);
  const least = value('depthBelow');
  const most = value('depthAbove');
  if (least === undefined || most === undefined || least < most) return undefined;
  return `The least depth (${decimetres(least)}) must be less than the greatest (${decimetres(most)}).`;
}
