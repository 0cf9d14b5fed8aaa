import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { simulateNight } from '../../../server/simulate/night.ts';
import { randomStreams } from '../../../server/simulate/random.ts';
import type { Scenario } from '../../../server/simulate/scenario.ts';
import type { Truth } from '../../../server/simulate/simulator.ts';
import { localPlane } from '../../../shared/earth/local.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import type { Event } from '../../../shared/events.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { Settings } from '../../../shared/settings.ts';
import { view } from '../../../shared/vessel/vessel.ts';
import { watchView } from '../../../shared/watch/watch.ts';
import type { Fitted } from './instruments.ts';
import { crewOf, DUG_IN, type Kind } from './kinds.ts';

/** Circles and clairvoyant thresholds that are tried beside hawse, metres beyond the taut reach / of displacement. */
export const STEPS = Array.from({ length: 160 }, (_, i) => i * 0.5);

export interface Alarm {
  after: number;
  moved: number;
}

/** What one night gave: first alarms of hawse, and for each threshold that of the plain circle and of the clairvoyant. */
export interface Night {
  kind: string;
  held: boolean;
  seed: number;
  fitted: string;
  /** Greatest displacement of the anchor, metres. */
  moved: number;
  drag?: Alarm;
  caution?: Alarm;
  circle?: Alarm;
  /** Drag alarms of the whole night, and times that the position was doubtful. */
  alarms: number;
  doubtful: number;
  plain: (Alarm | undefined)[];
  /** Both leave out the fixes that hawse calls doubtful. */
  plainSound: (Alarm | undefined)[];
  clairvoyant: (Alarm | undefined)[];
  text?: string;
  /** When the anchor had moved a metre since it dug in, s after the start. */
  began?: number;
  /** Error of the mark half an hour after it was set, and that of the place to which hawse offers to move it, metres. */
  offer?: { before: number; after: number };
  /** Once a minute: farthest from the mark, reach, and metres that the anchor has moved, as told and in truth. */
  strip?: { minutes: number; distance: number; reach: number; told: number; moved: number }[];
}

/** When the offer to move the mark is looked at, s after the start. */
const OFFER_AT = 1800;

/** What the crew tells hawse of the error of their mark, per axis, m; the true one is another figure (`crewOf`). */
const MARK_SIGMA = 3;

/** One simulated night, heard by a boat of each outfit. */
export function liveNight(kind: Kind, seed: number, outfits: Fitted[]): Night[] {
  const scenario = kind.scenario(seed);
  const common = toSettings(commonBoat());
  const { markSigma, counted } = crewOf(seed);
  const { veered } = scenario.cable;
  const settings: Settings = {
    ...common,
    boat: scenario.boat,
    cable: { ...common.cable, ...scenario.cable, veered: Math.round(veered * counted) },
    limits: {},
  };
  const random = randomStreams(seed + 90_000)();
  const plane = localPlane(scenario.start);
  const mark = plane.toLatLon({ east: markSigma * random.normal(), north: markSigma * random.normal() });
  const boats = outfits.map((fitted) => createWatcher(kind, seed, fitted, settings, scenario));
  const { at: start } = scenario.start;
  /** Where the anchor lies once it has dug in: from there on it is said to drag. */
  let dugIn = scenario.start as LatLon;
  for (const item of simulateNight(scenario, seed, kind.hours)) {
    if (item.kind === 'truth') {
      const { truth } = item;
      if (truth.at <= start + DUG_IN) dugIn = truth.anchor;
      const dragged = truth.at <= start + DUG_IN ? 0 : gone(truth, dugIn, scenario);
      for (const boat of boats) boat.see(truth, dragged, dugIn);
    } else {
      const { at, text } = item.said;
      for (const boat of boats)
        boat.hear(at, text, at > start + 3 ? { ...mark, sigma: MARK_SIGMA } : undefined);
    }
  }
  return boats.map(({ night }) => night);
}

/** Metres that the anchor has moved since it dug in; when the cable has parted, that she lies beyond where it would have held her. */
function gone(truth: Truth, dugIn: LatLon, { cable, seabed, boat }: Scenario): number {
  if (truth.hold !== 'parted') return apart(dugIn, truth.anchor);
  const { east, north } = localPlane(truth.anchor).toLocal(truth.roller);
  const h = seabed.depth + boat.roller.height;
  return Math.max(0, Math.hypot(east, north) - Math.sqrt(cable.veered ** 2 - h * h));
}

function apart(from: LatLon, to: LatLon): number {
  const { east, north } = localPlane(from).toLocal(to);
  return Math.hypot(east, north);
}

function createWatcher(kind: Kind, seed: number, fitted: Fitted, settings: Settings, scenario: Scenario) {
  const night: Night = {
    kind: kind.name,
    held: kind.held,
    seed,
    fitted: fitted.name,
    moved: 0,
    alarms: 0,
    doubtful: 0,
    plain: STEPS.map(() => undefined),
    plainSound: STEPS.map(() => undefined),
    clairvoyant: STEPS.map(() => undefined),
  };
  const taut = Math.sqrt(
    Math.max(0, settings.cable.veered! ** 2 - (scenario.seabed.depth + scenario.boat.roller.height) ** 2),
  );
  const runs = { plain: [] as number[], sound: [] as number[], clairvoyant: [] as number[] };
  const fittedSettings = fitted.untold
    ? { ...settings, cable: { massPerMetre: settings.cable.massPerMetre } }
    : settings;
  let engine = createEngine(fittedSettings);
  let marked = false;
  let moved = 0;
  let lastFix = 0;
  let count = 0;
  const alarm = (at: number): Alarm => ({ after: at - scenario.start.at, moved });

  function run(first: (Alarm | undefined)[], counts: number[], value: number, at: number): void {
    for (let i = 0; i < STEPS.length; i++) {
      counts[i] = value > STEPS[i]! ? (counts[i] ?? 0) + 1 : 0;
      if (counts[i]! >= 3) first[i] ??= alarm(at);
    }
  }
  const escalated = (id: string) =>
    engine.alerts.held.some(({ alert }) => alert.id === id && alert.escalated);
  function note(event: Event, at: number): void {
    if (event.event !== 'alert' || !event.state.startsWith('active')) return;
    const raised = event.state === 'active-unacknowledged';
    if (event.kind === 'drag' && event.priority === 'alarm' && raised) {
      night.alarms++;
      if (night.drag) return;
      night.drag = alarm(at);
      night.text = event.text;
    } else if (event.kind === 'drag' && event.priority === 'caution') night.caution ??= alarm(at);
    // A warning that nobody acknowledges becomes an alarm in the end; that is no judgement of the watch's.
    else if (event.kind === 'outside-circle' && event.priority === 'alarm' && raised && !escalated(event.id))
      night.circle ??= alarm(at);
    else if (event.kind === 'position-doubtful' && raised) night.doubtful++;
  }

  const strip: NonNullable<Night['strip']> = [];
  if (!kind.held) night.strip = strip;
  let lastPoint = 0;
  function lookAtOffer(at: number, dugIn: LatLon): void {
    const { mark } = engine.watch;
    const { offer } = watchView(engine.watch, fittedSettings, view(engine.vessel, fittedSettings, at));
    if (mark) night.offer = { before: apart(mark, dugIn), after: apart(offer ?? mark, dugIn) };
  }

  return {
    night,
    hear(at: number, said: string, mark?: { lat: number; lon: number; sigma: number }): void {
      const text = fitted.pass(said, said.startsWith('RMC', 3) ? count++ : 0);
      if (text === undefined) return;
      if (!marked && mark) {
        marked = true;
        const command = { do: 'mark', how: mark } as const;
        engine = step(engine, { kind: 'command', at: engine.now ?? at, by: 'bench', command }).state;
      }
      const done = step(engine, { kind: 'line', at, source: 'sim', text });
      engine = done.state;
      for (const event of done.events) note(event, at);
    },
    /** The plain three-fixes-outside alarm, and one that knows the exact vector from roller to anchor, so that only GNSS error is left. */
    see(truth: Truth, by: number, dugIn: LatLon): void {
      moved = by;
      night.moved = Math.max(night.moved, moved);
      const after = truth.at - scenario.start.at;
      if (moved > 1) night.began ??= after;
      if (!night.offer && marked && after >= OFFER_AT) lookAtOffer(truth.at, dugIn);
      const point = engine.watch.track.at(-1);
      const last = strip.at(-1);
      if (point?.lie && point.at !== lastPoint && (!last || after / 60 > last.minutes)) {
        lastPoint = point.at;
        const { distance, reach, moved: told } = point.lie;
        strip.push({ minutes: after / 60, distance, reach, told, moved });
      }
      const { range } = engine.watch;
      if (!marked || !range || range.at === lastFix) return;
      lastFix = range.at;
      run(night.plain, runs.plain, range.distance - taut, range.at);
      const { antenna, positionDoubt } = view(engine.vessel, settings, range.at);
      if (!antenna || positionDoubt) return;
      run(night.plainSound, runs.sound, range.distance - taut, range.at);
      const error = localPlane(truth.antenna).toLocal(antenna.value);
      const plane = localPlane(dugIn);
      const anchor = plane.toLocal(truth.anchor);
      const parted = truth.hold === 'parted' ? truth.roller : undefined;
      const away = parted ? plane.toLocal(parted) : undefined;
      // After the cable has parted there is no anchor at its end: where it would lie if she had dragged it along.
      const size = away ? Math.hypot(away.east, away.north) : 0;
      const end =
        away && size > 0 ? { east: (away.east * moved) / size, north: (away.north * moved) / size } : anchor;
      run(
        night.clairvoyant,
        runs.clairvoyant,
        Math.hypot(end.east + error.east, end.north + error.north),
        range.at,
      );
    },
  };
}
