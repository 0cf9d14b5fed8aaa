import type { Finding } from '../alerts/alert.ts';
import { confirm, over } from './confirm.ts';
import { OUTSIDE_CIRCLE } from './limits.ts';
import type { Moment } from './moment.ts';
import { rangeNow } from './range.ts';
import { outsideCircle, outsideCircleUnseen } from './words.ts';

/**
 * The roller is further from the mark than the circle's radius. A doubtful position is given a minute (the doubt is an alert of
 * its own), then the circle holds as a backstop. Without a heading the roller's place is only known as that of the antenna: the
 * distance between the two is allowed on top, since she lies with the antenna on the far side.
 */
export function findOutsideCircle({ state, settings, vessel, at }: Moment): Finding | undefined {
  const { circle } = state;
  if (!circle) {
    delete state.confirms['outside-circle'];
    return undefined;
  }
  trustOrDoubt(state, vessel.positionDoubt !== undefined);
  const { aftOfRoller, toStarboard } = settings.boat.antenna;
  const offset = vessel.heading ? undefined : Math.hypot(aftOfRoller, toStarboard);
  const range = rangeNow(state, vessel);
  const holds = confirm(
    state.confirms,
    'outside-circle',
    state.doubtful ? OUTSIDE_CIRCLE.doubtfulRule : OUTSIDE_CIRCLE.rule,
    {
      at,
      limit: circle.radius,
      side: range && over(range.distance, circle.radius + (offset ?? 0), OUTSIDE_CIRCLE.hysteresis),
      reading: range?.at,
    },
  );
  if (!holds) return undefined;
  const finding = { kind: 'outside-circle', priority: 'alarm', limit: circle.radius } as const;
  if (!range) return { ...finding, text: outsideCircleUnseen(circle.radius) };
  return { ...finding, text: outsideCircle(range.distance, circle.radius, offset), value: range.distance };
}

/** Doubtful fixes and sound ones are not counted together, but the time since she went outside runs on. */
function trustOrDoubt(state: Moment['state'], doubtful: boolean): void {
  if (doubtful === (state.doubtful ?? false)) return;
  if (doubtful) state.doubtful = true;
  else delete state.doubtful;
  const run = state.confirms['outside-circle'];
  if (run) run.readings = 0;
}
