import type { Finding } from '../alerts/alert.ts';
import { turn } from '../quantities/angle.ts';
import { confirm, over } from './confirm.ts';
import { WIND_SHIFT, WIND_SPEED } from './limits.ts';
import type { Moment } from './moment.ts';
import { limit } from './state.ts';
import { createWindMemory, recentMean, remember } from './wind-memory.ts';
import { windShift, windShiftUnseen, windSpeed, windSpeedUnseen } from './words.ts';

/** Wind over ground, or apparent wind while only that is known, over the limit. */
export function findWindSpeed({ state, settings, vessel, at }: Moment): Finding | undefined {
  const most = limit(state, settings, 'windAbove');
  if (most === undefined) {
    delete state.confirms['wind-speed'];
    return undefined;
  }
  const wind = vessel.windGround ?? vessel.windApparent;
  const value = wind?.value.speed;
  const holds = confirm(state.confirms, 'wind-speed', WIND_SPEED.rule, {
    at,
    limit: most,
    side: value === undefined ? undefined : over(value, most, most * WIND_SPEED.hysteresisPart),
    reading: wind?.at,
  });
  if (!holds) return undefined;
  const finding = { kind: 'wind-speed', priority: 'warning', limit: most } as const;
  if (value === undefined) return { ...finding, text: windSpeedUnseen(most) };
  return { ...finding, text: windSpeed(value, most, vessel.windGround !== undefined), value };
}

/**
 * The ground wind's mean over two minutes differs from what it was over the first ten minutes after the mark (or after the limit
 * was set) by more than the limit. Wind too light to have a direction is passed over. Judged once a second.
 */
export function findWindShift({ state, settings, vessel, at, newSecond }: Moment): Finding | undefined {
  const most = limit(state, settings, 'windShift');
  if (most === undefined) {
    delete state.wind;
    delete state.confirms['wind-shift'];
    return undefined;
  }
  if (state.wind?.limit !== most) state.wind = createWindMemory(most);
  const memory = state.wind;
  const wind = vessel.windGround?.value;
  const usable = wind !== undefined && wind.speed > WIND_SHIFT.leastSpeed;
  if (usable && newSecond) remember(memory, wind.from, at);
  const { reference } = memory;
  const mean = reference === undefined || !usable ? undefined : recentMean(memory);
  const shift = reference === undefined || mean === undefined ? undefined : Math.abs(turn(reference, mean));
  // A limit hardly above the hysteresis would never end: half of it is asked for then.
  const hysteresis = Math.min(WIND_SHIFT.hysteresis, most / 2);
  const holds = confirm(state.confirms, 'wind-shift', WIND_SHIFT.rule, {
    at,
    limit: most,
    side: shift === undefined ? undefined : over(shift, most, hysteresis),
    reading: newSecond ? at : undefined,
  });
  if (!holds) return undefined;
  const finding = { kind: 'wind-shift', priority: 'warning', limit: most } as const;
  if (shift === undefined) return { ...finding, text: windShiftUnseen(most) };
  return { ...finding, text: windShift(reference!, mean!, shift, most), value: shift };
}
