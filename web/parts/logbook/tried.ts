import type { WhatIf } from '../../../shared/logbook/what-if.ts';
import type { Mark } from '../../../shared/watch/view.ts';
import { metresTyped, speedTyped, typed } from '../../format.ts';
import { logbookWords as words } from '../../words/logbook.ts';
import { away } from './pastState.ts';

/** What stands in the fields of a what-if. */
export interface Tried {
  circle: string;
  veered: string;
  chain: string;
  windAbove: string;
  windShift: string;
  depthBelow: string;
  depthAbove: string;
  markBy: string;
  markTowards: string;
}

export const EMPTY: Tried = {
  circle: '',
  veered: '',
  chain: '',
  windAbove: '',
  windShift: '',
  depthBelow: '',
  depthAbove: '',
  markBy: '',
  markTowards: '',
};

/** The fields as settings to be tried, or why they cannot be. */
export function whatOf(tried: Tried, mark: Mark): WhatIf | string {
  const written = Object.values(tried).filter((text) => text.trim() !== '');
  if (written.length === 0) return words.nothingChanged;
  if (written.some((text) => !(typed(text)! >= 0))) return words.notNumber;
  const value = (key: keyof Tried, convert: (number: number) => number = (number) => number) => {
    const number = typed(tried[key]);
    return number === undefined ? undefined : convert(number);
  };
  const known = <T extends object>(members: T) =>
    Object.fromEntries(Object.entries(members).filter(([, member]) => member !== undefined)) as {
      [K in keyof T]: NonNullable<T[K]>;
    };
  const limits = known({
    windAbove: value('windAbove', speedTyped),
    windShift: value('windShift'),
    depthBelow: value('depthBelow', metresTyped),
    depthAbove: value('depthAbove', metresTyped),
  });
  const by = value('markBy', metresTyped);
  return known({
    circleRadius: value('circle', metresTyped),
    veered: value('veered', metresTyped),
    massPerMetre: value('chain'),
    limits: Object.keys(limits).length > 0 ? limits : undefined,
    mark: by === undefined ? undefined : { ...away(mark, by, value('markTowards') ?? 0), sigma: mark.sigma },
  });
}
