import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { radians, turn } from '../../../shared/quantities/angle.ts';
import { towards } from '../../../shared/quantities/vector.ts';
import type { WeighView } from '../../../shared/weigh/view.ts';
import { hullOf } from '../hull.ts';
import type { Scenario } from '../scenario.ts';
import type { Simulator, Truth } from '../simulator.ts';

/**
 * Who stands at the helm. `guided` does what hawse tells; `wind` keeps the bow in the apparent wind; `falls-off` does so too until half-way
 * and then lets the bow go; `overruns` is guided but does not slow down.
 */
export type HelmKind = 'guided' | 'wind' | 'falls-off' | 'overruns';

/** What a person at the helm has before the eyes: hawse's page, the bow, the vane, the water beside the cockpit. */
export interface Sight {
  truth: Truth;
  view: WeighView | undefined;
  /** What the foredeck shows with its arms: cable slack under the bow, up and down, or off the bottom. */
  foredeck: { slack: boolean; upAndDown: boolean; aweigh: boolean; past: boolean };
}

/** Of an ordinary boat's engine at low speed: N ahead and astern, N·m of rudder wash or two engines [P]. */
const MOST_AHEAD = 1800;
const MOST_ASTERN = -900;
const MOST_MOMENT = 4500;
/** How quickly a steady person brings the bow round, rad/s. */
const QUICK = 0.3;
/** … and how quickly a steady push is met with helm, rad/s³. */
const WEATHER = 0.004;
/** Closing speeds that a helm without hawse takes by eye, m/s. */
const BY_EYE = { far: 0.45, near: 0.2, last: 0.1 };
const OVERRUNS = 0.5;
/** The foredeck shows that the cable leads aft: let her fall back. */
const FALL_BACK = -0.1;
/** N: on the rudder to bring the bow round; and to move off, the anchor being aweigh. */
const BURST = 300;
const LEAVES = 900;

export interface Helm {
  /** One second at wheel and throttle. */
  act(sight: Sight): void;
}

export function createHelm(kind: HelmKind, scenario: Scenario, simulator: Simulator): Helm {
  const hull = hullOf(scenario.boat, scenario.hull);
  const inertia = hull.mass * hull.gyration ** 2 * (1 + hull.addedYaw);
  let lastHeading: number | undefined;
  let course: number | undefined;
  let steady = 0;
  let weather = 0;
  let began: number | undefined;
  let fallen = false;

  return {
    act({ truth, view, foredeck }) {
      const { distance, bearing } = distanceBearing(truth.roller, truth.anchor);
      began ??= distance;
      const intoWind = apparentFrom(truth);
      if (kind === 'falls-off' && distance < 0.55 * began) fallen = true;
      if (kind === 'wind' || kind === 'falls-off') course = intoWind;
      else course = view?.guidance?.course ?? course ?? intoWind;
      if (fallen) course = bearing + 110;

      const rate = lastHeading === undefined ? 0 : radians(turn(lastHeading, truth.heading));
      lastHeading = truth.heading;
      const error = radians(turn(truth.heading, course));
      weather = clamp(weather + inertia * WEATHER * error, -MOST_MOMENT / 2, MOST_MOMENT / 2);
      const wanted = weather + inertia * (QUICK * QUICK * error - 1.8 * QUICK * rate);
      const moment = clamp(wanted, -MOST_MOMENT, MOST_MOMENT);

      // By hawse she looks at the speed towards the anchor; by eye at that of the water, so to say, along the hull.
      const way = towards(1, kind === 'guided' ? bearing : truth.heading);
      const closing = truth.velocity.east * way.east + truth.velocity.north * way.north;
      const speed = wantedClosing(kind, distance, view, foredeck);
      const miss = speed - closing;
      steady = clamp(steady + 0.02 * hull.mass * miss, MOST_ASTERN, MOST_AHEAD);
      if (foredeck.aweigh) {
        simulator.setThrust(LEAVES, moment);
        return;
      }
      const asked = clamp(steady + 0.25 * hull.mass * miss, MOST_ASTERN, MOST_AHEAD);
      // Nobody comes ahead hard while the bow points elsewhere: a burst on the rudder, and round first.
      const round = Math.abs(error) > 1;
      simulator.setThrust(round || fallen ? Math.min(asked, BURST) : asked, moment);
    },
  };
}

function wantedClosing(
  kind: HelmKind,
  distance: number,
  view: WeighView | undefined,
  foredeck: Sight['foredeck'],
): number {
  if (kind === 'overruns') return OVERRUNS;
  if (foredeck.past) return FALL_BACK;
  if (foredeck.slack && !foredeck.upAndDown) return 0;
  if (kind === 'guided' && view?.guidance) return view.guidance.closing;
  return distance > 20 ? BY_EYE.far : distance > 8 ? BY_EYE.near : BY_EYE.last;
}

/** Where the wind comes from as the vane shows it, degrees true. */
function apparentFrom({ wind, velocity }: Truth): number {
  const blow = towards(wind.speed, wind.from);
  return (Math.atan2(blow.east + velocity.east, blow.north + velocity.north) * 180) / Math.PI;
}

/** A person with the windlass remote, who heaves only while the cable is not taut, snubs when it is up and down, and signals. */
export interface Foredeck {
  /** One second; returns what is signalled. */
  act(truth: Truth): string[];
  sees: Sight['foredeck'];
}

/** Metres that the windlass brings in in a second; onto the bottom: cable that is easy, and cable that hangs slack. */
const HEAVES = 0.25;
const EASY = { begins: 1, ends: 0.2 };
const SLACK = 3.5;
const TELLS_EVERY = 5;
/** Nearer than this (m) the cable is seen well enough to point along it, again after so many seconds. */
const POINTS = 15;
const POINTS_EVERY = 15;
/** Horizontal pull above which nobody heaves, N. */
const HARD = 900;
/** Nobody heaves a cable in that leads so far aft, degrees. */
const FOUL = 75;

export function createForedeck(scenario: Scenario, simulator: Simulator): Foredeck {
  const sees: Sight['foredeck'] = { slack: false, upAndDown: false, aweigh: false, past: false };
  let word: string | undefined;
  let toldOut = scenario.cable.veered;
  let aweighFor = 0;
  let pointed: number | undefined;
  let pointedAt = 0;
  return {
    sees,
    act(truth) {
      const said: string[] = [];
      const say = (text: string) => {
        if (word === text) return;
        word = text;
        said.push(text);
      };
      const height = truth.depth + scenario.boat.roller.height;
      sees.upAndDown = truth.veered <= 1.08 * height;
      sees.slack = truth.cableOnBottom > SLACK && truth.load < 60;
      if (truth.hold === 'aweigh') {
        sees.aweigh = ++aweighFor >= 3;
        if (sees.aweigh) say('aweigh');
        simulator.setCable(Math.max(1, truth.veered - HEAVES));
        return said;
      }
      const snubs = truth.veered <= height - 0.15;
      const { distance, bearing } = distanceBearing(truth.roller, truth.anchor);
      const lead = turn(truth.heading, bearing);
      const clear = Math.abs(lead) < FOUL || sees.upAndDown;
      sees.past = distance < height && !sees.upAndDown && Math.abs(lead) > 100;
      if (distance < POINTS && !sees.upAndDown) {
        const hour = ((Math.round(lead / 30) + 11) % 12) + 1;
        if (hour !== pointed || truth.at - pointedAt > POINTS_EVERY) {
          said.push(`lead:${hour}`);
          pointed = hour;
          pointedAt = truth.at;
        }
      }
      const comesHome = truth.hold === 'loose';
      const easy =
        comesHome ||
        sees.upAndDown ||
        truth.cableOnBottom > (word === 'heaving' ? EASY.ends : EASY.begins) ||
        truth.load < 40;
      if (snubs && !comesHome) {
        simulator.setCable(truth.veered);
        if (word !== 'snubbed') say(word === 'up-and-down' ? 'snubbed' : 'up-and-down');
      } else if (clear && easy && (comesHome || truth.load < HARD)) {
        simulator.setCable(truth.veered - HEAVES);
        say('heaving');
      } else {
        simulator.setCable(truth.veered);
        say('holding');
      }
      if (toldOut - truth.veered >= TELLS_EVERY) {
        toldOut = truth.veered;
        said.push(`out:${Math.round(truth.veered)}`);
      }
      return said;
    },
  };
}

const clamp = (value: number, least: number, most: number): number => Math.max(least, Math.min(most, value));
