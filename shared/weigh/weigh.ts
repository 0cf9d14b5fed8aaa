import type { Event } from '../events.ts';
import { signed } from '../quantities/angle.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { watchBreakOut } from './adrift.ts';
import { cableOf, keepOffset } from './cable.ts';
import { CABLE, OUT, RULES } from './limits.ts';
import { outOf, startHeaving, stopHeaving, tellOut } from './out.ts';
import { angleOfClock, closingOf, follow, heightOf, keepDepth, keepDrift, rangeOf } from './range.ts';
import type { Given, WeighState } from './state.ts';
import { stayOf } from './stay.ts';

export { findings } from './findings.ts';
export { weighView } from './look.ts';
export { hearCounter } from './out.ts';
export { createWeigh, type Given, type WeighState } from './state.ts';

/** To be called at each fresh fix, before `findings`; returns a `weigh` event when the stay or the cable's state has changed. */
export function onFix(
  state: WeighState,
  settings: Settings,
  vessel: VesselView,
  given: Given | undefined,
): Event[] {
  if (!given) return [];
  const { at } = vessel;
  follow(state, vessel, given);
  keepDepth(state, vessel);
  keepDrift(state, vessel);
  const range = rangeOf(vessel, given);
  const height = heightOf(state, settings, at);
  const closing = closingOf(state, at);
  const out = outOf(state, settings, given, range?.distance, height, at);
  if (range && !vessel.positionDoubt)
    keepOffset(state, settings, vessel, given, range.distance, closing, out);
  watchBreakOut(state, settings, vessel, range?.distance, height, out);

  const stay = stayOf(state, range?.distance, height, out);
  const cable = cableOf(state, range?.distance, height, out);
  let changed = false;
  if (stay && lasts(state, 'stay', stay.name, at)) {
    changed = state.stay?.name !== stay.name;
    state.stay = stay;
  }
  if (state.brokenOut) delete state.cable;
  else if (cable && cable.certainty >= CABLE.sure && lasts(state, 'cable', cable.state, at)) {
    changed ||= state.cable !== cable.state;
    state.cable = cable.state;
  }
  return changed ? [eventOf(state, at, range?.distance.value, out?.value)] : [];
}

/** Whether a stay or cable state is the one already told, or has lasted long enough to be. The first counts at once, and so does aweigh. */
function lasts(state: WeighState, what: 'stay' | 'cable', name: string, at: number): boolean {
  const told = what === 'stay' ? state.stay?.name : state.cable;
  if (told === undefined || told === name || name === 'aweigh') {
    delete state.next[what];
    return true;
  }
  const next = state.next[what];
  if (next?.name !== name) {
    state.next[what] = { name, since: at };
    return false;
  }
  if (at - next.since < RULES[what].raise) return false;
  delete state.next[what];
  return true;
}

function eventOf(state: WeighState, t: number, distance?: number, out?: number): Event {
  return {
    event: 'weigh',
    t,
    ...(state.stay ? { stay: state.stay.name } : {}),
    ...(state.cable ? { cable: state.cable } : {}),
    ...(distance === undefined ? {} : { distance }),
    ...(out === undefined ? {} : { out }),
  };
}

/** Takes a signal from the foredeck, given by `by` at `at`; returns its number and what it changes. */
export function signal(
  state: WeighState,
  settings: Settings,
  given: Given | undefined,
  text: string,
  at: number,
  by: string,
): { number: number; events: Event[] } {
  const number = (state.lastSignal?.number ?? 0) + 1;
  state.lastSignal = { signal: text, number, at, by };
  const before = state.stay?.name;
  const [word, figure] = text.split(':') as [string, string | undefined];
  if (word === 'lead') state.pointed = { angle: signed(angleOfClock(Number(figure))), at };
  else if (word === 'out') tellOut(state, Number(figure), OUT.toldSigma, at);
  else obey(state, settings, given?.veered, text, at);
  const events: Event[] = [{ event: 'signal', t: at, by, signal: text, number }];
  if (state.stay?.name !== before) events.push(eventOf(state, at));
  return { number, events };
}

function obey(
  state: WeighState,
  settings: Settings,
  veered: number | undefined,
  told: string,
  at: number,
): void {
  switch (told) {
    case 'heaving':
      startHeaving(state, veered, at);
      break;
    case 'snubbed':
      stopHeaving(state, at);
      state.snubbedAt = at;
      break;
    case 'holding':
    case 'stop':
    case 'foul':
      stopHeaving(state, at);
      break;
    case 'up-and-down': {
      stopHeaving(state, at);
      // Said of a cable that hangs straight down: so long is it. It also takes back a mistaken "aweigh".
      if (state.brokenOut) {
        delete state.brokenOut;
        delete state.over;
        state.spells = {};
      }
      const height = heightOf(state, settings, at);
      if (height) tellOut(state, height.value, OUT.toldSigma, at);
      state.stay = { name: 'up-and-down', certainty: 0.95, from: 'foredeck' };
      delete state.next.stay;
      break;
    }
    case 'aweigh':
      stopHeaving(state, at);
      delete state.snubbedAt;
      delete state.cable;
      state.brokenOut = { at, from: 'foredeck' };
      state.stay = { name: 'aweigh', certainty: 0.99, from: 'foredeck' };
      break;
    default:
      // Engine words are for the helm to see; the cable does as it did.
      break;
  }
}

/** The helm marks the apparent wind angle it holds now, or another; `null`: no more. False when there is no wind to mark. */
export function holdWind(state: WeighState, vessel: VesselView, angle: number | null | undefined): boolean {
  if (angle === null) {
    delete state.held;
    return true;
  }
  const held = angle ?? vessel.windApparent?.value.angle;
  if (held === undefined) return false;
  state.held = signed(held);
  return true;
}
