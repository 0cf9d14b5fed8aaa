import { accessNote } from './access.ts';
import type { Finding } from './alerts/alert.ts';
import {
  type AlertsState,
  acknowledge,
  createAlerts,
  pass as passAlerts,
  silence,
  update,
} from './alerts/alerts.ts';
import { clockFinding } from './clock.ts';
import type { Command } from './commands.ts';
import { orderCheck } from './departing.ts';
import type { Answer, Event } from './events.ts';
import { type Hearing, instruments, type Line, type Said } from './hearing.ts';
import type { Input } from './input.ts';
import { createInputs, type InputsState, linked } from './inputs.ts';
import { ownBoat } from './neighbouring.ts';
import {
  createNeighbours,
  hearAis,
  type NeighboursState,
  passNeighbours,
  takeAway,
  tellNeighbour,
} from './neighbours/neighbours.ts';
import type { Settings } from './settings.ts';
import { createSoundings, passSoundings, type SoundingsState, sound } from './soundings/soundings.ts';
import { streamNow } from './streaming.ts';
import {
  createTidalStream,
  passTidalStream,
  type TidalStreamState,
  tellSlacks,
} from './tidal-stream/tidal-stream.ts';
import { createTides, passTides, type TidesState, tellTide } from './tides/tides.ts';
import { groundOf, lowWaterFinding, placeOfGround } from './tiding.ts';
import { createVessel, type VesselState } from './vessel/vessel.ts';
import type { VesselView } from './vessel/view.ts';
import * as watch from './watch/watch.ts';
import type { CheckState } from './weigh/check.ts';
import * as weigh from './weigh/weigh.ts';
import { followLeaving, given, type Left, leave, takeBack } from './weighing.ts';

/**
 * The engine: `step(state, input)` is the only way anything happens. It is pure in the sense that matters here: what comes
 * out depends on the state and the input alone. The state is plain JSON data and belongs to the engine: a step may change it
 * in place. Time-outs fall on the whole seconds of the inputs' own timeline, so a recording stepped again, at any speed and
 * with or without ticks in between, gives the same events to the byte.
 */
export interface EngineState {
  settings: Settings;
  /** The time of the last input. */
  now?: number;
  vessel: VesselState;
  watch: watch.WatchState;
  alerts: AlertsState;
  inputs: InputsState;
  weigh?: weigh.WeighState;
  check?: CheckState;
  neighbours: NeighboursState;
  tides: TidesState;
  tidalStream: TidalStreamState;
  soundings: SoundingsState;
  /** The last anchorage, closed by "aweigh": kept for a while, since that may have been a mistake. */
  left?: Left;
  /** What the daemon reports of itself and still holds. */
  faults: Finding[];
  notes: { at: number; text: string }[];
}

export interface Step {
  state: EngineState;
  events: Event[];
  /** Reply, when the input was a command. */
  answer?: Answer;
}

/** After a silence longer than this the seconds in its middle are not lived through one by one. */
const LONGEST_SILENCE = 6 * 3600;
const LIVED_OF_A_LONG_SILENCE = 900;
const NOTES_KEPT = 30;

export function createEngine(settings: Settings): EngineState {
  return {
    settings,
    vessel: createVessel(),
    watch: watch.createWatch(),
    alerts: createAlerts(),
    inputs: createInputs(),
    neighbours: createNeighbours(),
    tides: createTides(),
    tidalStream: createTidalStream(),
    soundings: createSoundings(),
    faults: [],
    notes: [],
  };
}

/**
 * Takes one input. Throws only when an invariant of hawse itself is broken; bad input is counted, never thrown. `hearing`: where what the
 * instruments say comes from.
 */
export function step(state: EngineState, input: Input, hearing: Hearing = instruments): Step {
  const events: Event[] = [];
  passTime(state, input.at, events, hearing);
  switch (input.kind) {
    case 'line':
      for (const said of hearing.line(state, input)) takeSaid(state, said, input, events);
      break;
    case 'command': {
      const { command, by, at } = input;
      const look = () => hearing.look(state, at);
      return { state, events, answer: takeCommand(state, command, by, at, events, look) };
    }
    case 'link':
      linked(state.inputs, input.source, input.up, input.detail);
      note(state, input.at, `${input.source}: ${input.detail}`, events);
      break;
    case 'fault': {
      const { alert: kind, priority, text } = input;
      const subject = input.subject ?? 'host';
      state.faults = state.faults.filter((fault) => fault.kind !== kind || fault.subject !== subject);
      if (input.raised) state.faults.push({ kind, subject, priority, text });
      judge(state, input.at, hearing.look(state, input.at), events);
      break;
    }
    case 'settings':
      state.settings = input.settings;
      if (input.note !== undefined) note(state, input.at, input.note, events);
      break;
    case 'tick':
      break;
  }
  return { state, events };
}

function passTime(state: EngineState, at: number, events: Event[], hearing: Hearing): void {
  const last = state.now;
  if (last !== undefined) {
    if (at < last) throw new RangeError(`time went back: input at ${at} after ${last}`);
    let second = Math.floor(last) + 1;
    const end = Math.floor(at);
    if (end - second > LONGEST_SILENCE) {
      for (const lived = second + LIVED_OF_A_LONG_SILENCE; second < lived; second++)
        passSecond(state, second, events, hearing);
      second = end;
    }
    for (; second <= end; second++) passSecond(state, second, events, hearing);
  }
  state.now = at;
}

function passSecond(state: EngineState, at: number, events: Event[], hearing: Hearing): void {
  const { notes, vessel } = hearing.second(state, at);
  for (const text of notes) note(state, at, text, events);
  passTides(state.tides, at);
  passTidalStream(state.tidalStream, at, state.watch.mark !== undefined, () => streamNow(state, vessel));
  passSoundings(state.soundings, state.settings.boat.draft, at, () => groundOf(state, at));
  passNeighbours(state.neighbours, at, () => ownBoat(state, vessel));
  judge(state, at, vessel, events);
  for (const event of passAlerts(state.alerts, at)) events.push(event);
  const every = state.settings.lieEvery;
  if (every !== undefined && at % every === 0)
    events.push(watch.lieEvent(state.watch, state.settings, vessel, at));
}

function judge(state: EngineState, at: number, vessel: VesselView, events: Event[]): void {
  const findings = watch
    .findings(state.watch, state.settings, vessel, at)
    .concat(state.neighbours.found, state.faults);
  if (state.weigh)
    for (const finding of weigh.findings(state.weigh, state.settings, vessel, given(state, vessel), at))
      findings.push(finding);
  const low = lowWaterFinding(state, vessel);
  if (low) findings.push(low);
  const clock = clockFinding(vessel);
  if (clock) findings.push(clock);
  for (const event of update(state.alerts, findings, at)) events.push(event);
}

function takeSaid(state: EngineState, { notes, sentence, fixed }: Said, line: Line, events: Event[]): void {
  const { at, source } = line;
  for (const text of notes) note(state, at, text, events);
  if (sentence) {
    if (state.weigh) weigh.hearCounter(state.weigh, state.settings, sentence, at);
    hearAis(state.neighbours, sentence, at, source, state.settings.boat.mmsi);
  }
  if (fixed) takeFix(state, fixed, at, events);
}

function takeFix(state: EngineState, vessel: VesselView, at: number, events: Event[]): void {
  watch.onFix(state.watch, state.settings, vessel);
  const leaving = followLeaving(state, vessel);
  if (leaving !== undefined) note(state, at, leaving, events);
  sound(state.soundings, state.settings.boat, vessel, placeOfGround(state, at));
  if (state.weigh)
    for (const event of weigh.onFix(state.weigh, state.settings, vessel, given(state, vessel)))
      events.push(event);
  judge(state, at, vessel, events);
}

function takeCommand(
  state: EngineState,
  command: Command,
  by: string,
  at: number,
  events: Event[],
  look: () => VesselView,
): Answer {
  switch (command.do) {
    case 'acknowledge':
    case 'silence': {
      const act = command.do === 'acknowledge' ? acknowledge : silence;
      const done = act(state.alerts, command.alert, by, at);
      if (!done.ok) return done;
      for (const event of done.events) events.push(event);
      return { ok: true };
    }
    case 'access':
      note(state, at, accessNote(command.change, by), events);
      return { ok: true };
    case 'signal': {
      if (!state.weigh) {
        return {
          ok: false,
          problem: 'refused',
          why: 'Signals go to the helm while weighing: start to weigh first.',
        };
      }
      const vessel = look();
      const lent = given(state, vessel);
      const sent = weigh.signal(state.weigh, state.settings, lent, command.signal, at, by);
      for (const event of sent.events) events.push(event);
      judge(state, at, vessel, events);
      return { ok: true, signal: sent.number };
    }
    case 'departure-check':
    case 'departure-items': {
      const vessel = look();
      const done = orderCheck(state, vessel, command, at, by);
      if (done.words !== undefined) note(state, at, done.words, events);
      return done.answer;
    }
    case 'hold-wind': {
      if (!state.weigh) {
        return {
          ok: false,
          problem: 'refused',
          why: 'A wind angle is held while weighing: start to weigh first.',
        };
      }
      const vessel = look();
      return weigh.holdWind(state.weigh, vessel, command.angle)
        ? { ok: true }
        : { ok: false, problem: 'unavailable', why: 'There is no apparent wind to hold.' };
    }
    case 'slacks':
      return tellSlacks(state.tidalStream, command.tell);
    case 'tide':
      return tellTide(state.tides, command.tell, by, at);
    case 'neighbour': {
      if ('takeAway' in command) return takeAway(state.neighbours, command.takeAway);
      const own = ownBoat(state, look());
      return tellNeighbour(state.neighbours, own, command.tell, by);
    }
    case 'undo-aweigh': {
      const back = takeBack(state, at, by);
      for (const event of back.events) events.push(event);
      judge(state, at, look(), events);
      return back.answer;
    }
    default: {
      const vessel = look();
      const left = command.do === 'aweigh' ? leave(state, at, by) : undefined;
      const done = watch.command(state.watch, state.settings, vessel, command, at, by);
      for (const event of done.events) events.push(event);
      if (done.answer.ok) {
        if (command.do === 'weigh') state.weigh = weigh.createWeigh(at, by);
        if (left) {
          state.left = left.left;
          note(state, at, left.words, events);
        }
        if (command.do === 'stop-weighing' || command.do === 'aweigh') delete state.weigh;
      }
      judge(state, at, vessel, events);
      return done.answer;
    }
  }
}

function note(state: EngineState, at: number, text: string, events: Event[]): void {
  state.notes.push({ at, text });
  if (state.notes.length > NOTES_KEPT) state.notes.shift();
  events.push({ event: 'note', t: at, text });
}
