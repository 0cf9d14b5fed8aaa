import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { simulateNight } from '../../../server/simulate/night.ts';
import { randomStreams } from '../../../server/simulate/random.ts';
import type { Truth } from '../../../server/simulate/simulator.ts';
import { localPlane } from '../../../shared/earth/local.ts';
import { createEngine, step } from '../../../shared/engine.ts';
import type { Settings } from '../../../shared/settings.ts';
import { view } from '../../../shared/vessel/vessel.ts';
import type { Kind } from './kinds.ts';

/** Circles and clairvoyant thresholds that are tried beside hawse, metres beyond the taut reach / of displacement. */
export const STEPS = Array.from({ length: 80 }, (_, i) => i * 0.5);

export interface Alarm {
  after: number;
  moved: number;
}

/** What one night gave: first alarms of hawse, and for each threshold that of the plain circle and of the clairvoyant. */
export interface Night {
  kind: string;
  held: boolean;
  seed: number;
  hours: number;
  /** Greatest displacement of the anchor, metres; when it had moved by a metre, seconds. */
  moved: number;
  movedAt?: number;
  drag?: Alarm;
  caution?: Alarm;
  circle?: Alarm;
  doubtful: number;
  plain: (Alarm | undefined)[];
  clairvoyant: (Alarm | undefined)[];
  text?: string;
}

export interface Without {
  name: string;
  /** Sentence kinds that are left out, and whether every second fix is dropped. */
  drop: string[];
  half?: boolean;
}

/** Uncertainty of the mark that the crew logged, per axis, metres. */
const MARK_SIGMA = 2;

export function liveNight(
  kind: Kind,
  seed: number,
  without?: Without,
  trace?: (t: number, engine: ReturnType<typeof createEngine>, moved: number) => void,
): Night {
  const scenario = kind.scenario(seed);
  const common = toSettings(commonBoat());
  const settings: Settings = {
    ...common,
    boat: scenario.boat,
    cable: { ...common.cable, ...scenario.cable },
    limits: {},
  };
  const random = randomStreams(seed + 90_000)();
  const plane = localPlane(scenario.start);
  const mark = plane.toLatLon({ east: MARK_SIGMA * random.normal(), north: MARK_SIGMA * random.normal() });
  const start = scenario.start.at;
  const out: Night = {
    kind: kind.name,
    held: kind.held,
    seed,
    hours: kind.hours,
    moved: 0,
    doubtful: 0,
    plain: STEPS.map(() => undefined),
    clairvoyant: STEPS.map(() => undefined),
  };
  let engine = createEngine(settings);
  let marked = false;
  let truth: Truth | undefined;
  const alarm = (at: number): Alarm => ({ after: at - start, moved: truth?.moved ?? 0 });
  const outside = { plainRun: [] as number[], clairvoyant: [] as number[] };
  let lastFix = 0;
  let fixes = 0;

  for (const item of simulateNight(scenario, seed, kind.hours)) {
    if (item.kind === 'truth') {
      truth = item.truth;
      out.moved = Math.max(out.moved, truth.moved);
      if (out.movedAt === undefined && truth.moved > 1) out.movedAt = item.truth.at - start;
      trace?.(item.truth.at - start, engine, truth.moved);
      const fix = engine.watch.range;
      if (marked && fix && fix.at !== lastFix) {
        lastFix = fix.at;
        rivals(fix.at);
      }
      continue;
    }
    const { at, text } = item.said;
    if (without?.drop.includes(text.slice(3, 6))) continue;
    if (without?.half && text.startsWith('RMC', 3) && fixes++ % 2 === 1) continue;
    if (!marked && at > start + 3) {
      marked = true;
      const how = { lat: mark.lat, lon: mark.lon, sigma: 3 };
      engine = step(engine, {
        kind: 'command',
        at: engine.now ?? at,
        by: 'bench',
        command: { do: 'mark', how },
      }).state;
    }
    const done = step(engine, { kind: 'line', at, source: 'sim', text });
    engine = done.state;
    for (const event of done.events) {
      if (event.event !== 'alert') continue;
      if (
        event.kind === 'drag' &&
        event.priority === 'alarm' &&
        event.state === 'active-unacknowledged' &&
        !out.drag
      ) {
        out.drag = alarm(at);
        out.text = event.text;
      }
      if (event.kind === 'drag' && event.priority === 'caution' && event.state.startsWith('active'))
        out.caution ??= alarm(at);
      if (event.kind === 'outside-circle' && event.state === 'active-unacknowledged')
        out.circle ??= alarm(at);
      if (event.kind === 'position-doubtful' && event.state === 'active-unacknowledged') out.doubtful++;
    }
  }
  return out;

  /** The plain three-fixes-outside alarm, and one that knows the exact vector from roller to anchor, so that only GNSS error is left. */
  function rivals(at: number): void {
    const range = engine.watch.range!;
    const L = scenario.cable.veered;
    const h = scenario.seabed.depth + scenario.boat.roller.height;
    const beyond = range.distance - Math.sqrt(Math.max(0, L * L - h * h));
    run(out.plain, outside.plainRun, beyond, at);
    const fixed = view(engine.vessel, settings, at).antenna;
    if (!fixed || !truth) return;
    const error = localPlane(truth.antenna).toLocal(fixed.value);
    const anchorNow = plane.toLocal(truth.anchor);
    const seen = Math.hypot(anchorNow.east + error.east, anchorNow.north + error.north);
    run(out.clairvoyant, outside.clairvoyant, seen, at);
  }

  function run(first: (Alarm | undefined)[], counts: number[], value: number, at: number): void {
    for (let i = 0; i < STEPS.length; i++) {
      counts[i] = value > STEPS[i]! ? (counts[i] ?? 0) + 1 : 0;
      if (counts[i]! >= 3) first[i] ??= alarm(at);
    }
  }
}
