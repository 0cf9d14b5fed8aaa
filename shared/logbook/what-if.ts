import type { PlacedMark, WatchChange } from '../commands.ts';
import type { EngineState } from '../engine.ts';
import type { Input } from '../input.ts';
import type { Limits, Settings } from '../settings.ts';

/** What a night is tried with instead of what was in force. Absent: as it was; null: computed, or not watched. SI units. */
export interface WhatIf {
  /** Metres round the mark. */
  circleRadius?: number | null;
  limits?: { [K in keyof Limits]?: number | null };
  /** Metres of cable out beyond the roller. */
  veered?: number;
  /** Mass of the chain in air, kg/m. */
  massPerMetre?: number;
  /** Where the anchor is held to lie, from the first mark of the night on. */
  mark?: PlacedMark;
}

/** Whose orders these are: they were never given. */
const BY = 'what if';

/** The state before the mark, with what is tried: a copy. */
export function tried(state: EngineState, what: WhatIf): EngineState {
  const copy = structuredClone(state);
  copy.settings = triedSettings(copy.settings, what);
  return copy;
}

function triedSettings(settings: Settings, { circleRadius, limits, veered, massPerMetre }: WhatIf): Settings {
  const made: Settings = {
    ...settings,
    cable: { ...settings.cable },
    circle: { ...settings.circle },
    limits: { ...settings.limits },
  };
  if (veered !== undefined) made.cable.veered = veered;
  if (massPerMetre !== undefined) made.cable.massPerMetre = massPerMetre;
  if (circleRadius === null) delete made.circle.radius;
  else if (circleRadius !== undefined) made.circle.radius = circleRadius;
  for (const [key, value] of Object.entries(limits ?? {}) as [keyof Limits, number | null][]) {
    if (value === null) delete made.limits[key];
    else made.limits[key] = value;
  }
  return made;
}

/**
 * Changes the inputs of a night into those that are tried: what is tried holds from the first mark on, whatever people told about it
 * later; everything else that they told, acknowledgements too, stays as and when it was. Feed it every input but lines in turn. Instead of an order
 * that is left out time passes, so that what the instruments said is heard at the same moments.
 */
export function trier(what: WhatIf): (input: Input) => Input[] {
  const change: WatchChange = {
    ...(what.circleRadius === undefined ? {} : { circleRadius: what.circleRadius }),
    ...(what.veered === undefined ? {} : { veered: what.veered }),
    ...(what.limits === undefined ? {} : { limits: what.limits }),
  };
  const changesWatch = Object.keys(change).length > 0;
  let isMarked = false;
  return (input) => {
    if (input.kind === 'settings') return [{ ...input, settings: triedSettings(input.settings, what) }];
    if (input.kind !== 'command') return [input];
    const { command, at } = input;
    if (command.do === 'mark') {
      const isFirst = !isMarked;
      isMarked = true;
      if (!isFirst) return what.mark ? [{ kind: 'tick', at }] : [input];
      const mark: Input = what.mark ? { ...input, command: { do: 'mark', how: what.mark } } : input;
      return changesWatch
        ? [mark, { kind: 'command', at, by: BY, command: { do: 'watch', change } }]
        : [mark];
    }
    if (command.do !== 'watch') return [input];
    const left = without(command.change, what);
    return Object.keys(left).length === 0
      ? [{ kind: 'tick', at }]
      : [{ ...input, command: { do: 'watch', change: left } }];
  };
}

/** A change that people told, less what is tried otherwise. */
function without(told: WatchChange, what: WhatIf): WatchChange {
  const left: WatchChange = { ...told };
  if (what.circleRadius !== undefined) delete left.circleRadius;
  if (what.veered !== undefined) delete left.veered;
  if (left.limits && what.limits) {
    const limits = { ...left.limits };
    for (const key of Object.keys(what.limits) as (keyof Limits)[]) delete limits[key];
    if (Object.keys(limits).length === 0) delete left.limits;
    else left.limits = limits;
  }
  return left;
}
