import type { Command } from '../commands.ts';
import type { Answer, Event } from '../events.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { change } from './change.ts';
import { settleCircle } from './circle.ts';
import { moveMark, setBackOffer } from './drag/offer.ts';
import { type Placed, place } from './mark.ts';
import { forgetCircle } from './outside-circle.ts';
import { rangeNow } from './range.ts';
import { close, veered, type WatchState } from './state.ts';
import type { Mark } from './view.ts';

/** Orders that are the watch's own. */
export type WatchCommand = Exclude<
  Command,
  {
    do:
      | 'signal'
      | 'acknowledge'
      | 'silence'
      | 'undo-aweigh'
      | 'hold-wind'
      | 'neighbour'
      | 'tide'
      | 'slacks'
      | 'access'
      | 'departure-check'
      | 'departure-items';
  }
>;

export interface Commanded {
  answer: Answer;
  events: Event[];
}

const refused = (why: string): Commanded => ({ answer: { ok: false, problem: 'refused', why }, events: [] });
const done = (...events: Event[]): Commanded => ({ answer: { ok: true }, events });

/** Obeys an order given by `by` at `at` (UNIX seconds), or says why not; a refused order changes nothing. */
export function command(
  state: WatchState,
  settings: Settings,
  vessel: VesselView,
  order: WatchCommand,
  at: number,
  by: string,
): Commanded {
  switch (order.do) {
    case 'mark':
      return setMark(state, settings, vessel, order.how, at, by);
    case 'watch': {
      const changed = change(state, settings, order.change);
      if (!changed.ok) return refused(changed.why);
      settleCircle(state, settings, vessel, at);
      const text = `Watch changed by ${by}: ${changed.words.join(', ')}.`;
      return changed.words.length === 0 ? done() : done({ event: 'note', t: at, text });
    }
    case 'weigh':
      if (state.phase === 'no-mark')
        return refused('There is no mark: tell hawse first where the anchor lies.');
      if (state.phase === 'weighing') return refused('The weighing monitor is on already.');
      state.phase = 'weighing';
      return done({
        event: 'note',
        t: at,
        text: `Weighing, by ${by}. Circle and wind shift are not watched.`,
      });
    case 'stop-weighing':
      if (state.phase !== 'weighing') return refused('The weighing monitor is not on.');
      state.phase = 'watching';
      return done({ event: 'note', t: at, text: `Weighing stopped by ${by}. Watching again.` });
    case 'aweigh':
      if (state.phase === 'no-mark') return refused('There is no mark to close.');
      close(state);
      return done({ event: 'mark', t: at, by });
  }
}

function dugIn(state: WatchState, at: number): Placed {
  const offer = setBackOffer(state, at);
  if (!offer)
    return {
      ok: false,
      problem: 'unavailable',
      why: 'hawse knows of no place to which the anchor has dug in: too early, too late, too little, or something speaks against its holding.',
    };
  const { lat, lon, sigma } = offer;
  return { ok: true, lat, lon, sigma, how: 'set-back' };
}

/** Whatever was judged by the old mark is judged anew; depth, wind and instruments go on as they are. */
function setMark(
  state: WatchState,
  settings: Settings,
  vessel: VesselView,
  how: Extract<Command, { do: 'mark' }>['how'],
  at: number,
  by: string,
): Commanded {
  const placed =
    'setBack' in how
      ? dugIn(state, at)
      : place(how, vessel, { track: state.track, veered: veered(state, settings), settings });
  if (!placed.ok) return { answer: placed, events: [] };
  const { lat, lon, sigma } = placed;
  const mark: Mark = { lat, lon, sigma, at, by, how: placed.how };
  state.mark = mark;
  if ('setBack' in how) moveMark(state, mark);
  if (state.phase === 'no-mark') {
    state.phase = 'watching';
    state.since = at;
    state.trackEvery = 0;
  }
  delete state.range;
  delete state.farthest;
  delete state.wind;
  delete state.circle;
  forgetCircle(state.confirms);
  delete state.confirms['wind-shift'];
  settleCircle(state, settings, vessel, at);
  rangeNow(state, vessel);
  return {
    answer: { ok: true, mark: { ...mark } },
    events: [{ event: 'mark', t: at, by, mark: { ...mark } }],
  };
}
