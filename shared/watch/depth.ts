import type { Finding } from '../alerts/alert.ts';
import { confirm, over, under } from './confirm.ts';
import { DEPTH } from './limits.ts';
import type { Moment } from './moment.ts';
import { limit } from './state.ts';
import { deep, depthUnseen, shoal } from './words.ts';

/** Less water than the limit. */
export const findShoal = (moment: Moment): Finding | undefined => find(moment, 'shoal');

/** More water than the limit: off the bank she was anchored on, or a rise that her scope was not meant for. */
export const findDeep = (moment: Moment): Finding | undefined => find(moment, 'deep');

function find({ state, settings, vessel, at }: Moment, kind: 'shoal' | 'deep'): Finding | undefined {
  const isShoal = kind === 'shoal';
  const border = limit(state, settings, isShoal ? 'depthBelow' : 'depthAbove');
  if (border === undefined) {
    delete state.confirms[kind];
    return undefined;
  }
  const fromSurface = vessel.depth?.value.surface !== undefined;
  const value = vessel.depth?.value.surface ?? vessel.depth?.value.measured;
  const side = value === undefined ? undefined : (isShoal ? under : over)(value, border, DEPTH.hysteresis);
  if (!confirm(state.confirms, kind, DEPTH.rule, { at, limit: border, side, reading: vessel.depth?.at }))
    return undefined;
  const finding = { kind, priority: isShoal ? 'alarm' : 'warning', limit: border } as const;
  if (value === undefined) return { ...finding, text: depthUnseen(isShoal, border) };
  return { ...finding, text: (isShoal ? shoal : deep)(value, border, fromSurface), value };
}
