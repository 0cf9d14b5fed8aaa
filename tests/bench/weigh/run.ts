import { settingsOf } from '../../../server/commands/rehearse.ts';
import { randomStreams } from '../../../server/simulate/random.ts';
import type { Scenario } from '../../../server/simulate/scenario.ts';
import type { HelmKind } from '../../../server/simulate/weighing/crew.ts';
import { weighSimulated } from '../../../server/simulate/weighing/weighing.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { radians, turn } from '../../../shared/quantities/angle.ts';
import type { Stay } from '../../../shared/weigh/view.ts';

export const STAGES = ['short', 'up-and-down', 'aweigh'] as const;

/** One weighing: seconds after "start to weigh". */
export interface Run {
  truth: Partial<Record<Stay, number>>;
  said: Partial<Record<Stay, number>>;
  /** Became active: kinds, with the time. */
  alerts: { kind: string; at: number }[];
  /** The cable bears and leads abaft the beam for three seconds on end, before she is up and down; when it led clear ahead before. */
  under?: number;
  /** The anchor came home before she was up and down. */
  cameHome?: number;
  /** Mean distance from the straight line to the anchor, m; share of the time with the cable within 45° of the bow. */
  crossTrack: number;
  fairLead: number;
  /** Error of the distance told, root mean square, m. */
  distance: number;
  /** Share of the time in which there is a course to steer. */
  guided: number;
}

/** Degrees off the bow: a fair lead, and one that goes under the hull. */
const FAIR = 45;
const UNDER = 90;
const MARK_SIGMA = 2;

export function weighOnce(
  scenario: Scenario,
  seed: number,
  { helm, entries }: { helm: HelmKind; entries: boolean },
): Run {
  const random = randomStreams(seed + 40_000)();
  const mark = { north: MARK_SIGMA * random.normal(), east: MARK_SIGMA * random.normal(), sigma: MARK_SIGMA };
  const settings = settingsOf(scenario);
  if (scenario.instruments.sends.some(({ id }) => id === 'XDR')) settings.cable.counter = 'CHAIN';
  const run: Run = { truth: {}, said: {}, alerts: [], crossTrack: 0, fairLead: 0, distance: 0, guided: 0 };
  let first: number | undefined;
  let from: number | undefined;
  let samples = 0;
  let aft = 0;
  let clear = false;
  for (const { truth, view, events } of weighSimulated(scenario, settings, seed, { helm, entries, mark })) {
    first ??= truth.at;
    const t = truth.at - first;
    const { distance, bearing } = distanceBearing(truth.roller, truth.anchor);
    from ??= bearing;
    const ratio = truth.veered / (truth.depth + scenario.boat.roller.height);
    if (ratio <= 1.5) run.truth.short ??= t;
    if (ratio <= 1.1) run.truth['up-and-down'] ??= t;
    if (truth.hold === 'aweigh') run.truth.aweigh ??= t;
    if (view?.stay) run.said[view.stay.name] ??= t;
    for (const event of events)
      if (event.event === 'alert' && event.state === 'active-unacknowledged' && OURS.includes(event.kind))
        if (!run.alerts.some(({ kind }) => kind === event.kind)) run.alerts.push({ kind: event.kind, at: t });
    if (run.truth['up-and-down'] !== undefined) continue;
    if (truth.hold !== 'held') {
      run.cameHome ??= t;
      continue;
    }
    const lead = Math.abs(turn(truth.heading, bearing));
    clear ||= lead < FAIR;
    aft = clear && lead > UNDER && truth.load > 100 ? aft + 1 : 0;
    if (aft >= 3) run.under ??= t;
    samples++;
    run.crossTrack += Math.abs(distance * Math.sin(radians(turn(from, bearing))));
    if (lead <= FAIR) run.fairLead++;
    if (view?.distance) run.distance += (view.distance.value - distance) ** 2;
    if (view?.guidance) run.guided++;
  }
  // Who is told "aweigh" at once has not been told "up and down", and misses nothing.
  if (run.said.aweigh !== undefined) run.said['up-and-down'] ??= run.said.aweigh;
  run.crossTrack /= samples;
  run.fairLead /= samples;
  run.distance = Math.sqrt(run.distance / samples);
  run.guided /= samples;
  return run;
}

const OURS: string[] = ['lead-foul', 'cable-taut', 'overrun', 'adrift'];
