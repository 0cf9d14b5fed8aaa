import { degrees, direction } from '../../shared/quantities/angle.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import { directionOf, type Vector } from '../../shared/quantities/vector.ts';
import type { AnchorHold } from './anchor.ts';
import { createReceiver } from './gnss.ts';
import { apparentWind, type Felt, fixSentences, instrumentSentences } from './instruments.ts';
import { createNeighbours } from './neighbours/neighbours.ts';
import { createPlace } from './place.ts';
import { motionOf, pointsOf } from './points.ts';
import { randomStreams } from './random.ts';
import type { Scenario } from './scenario.ts';
import { createWorld, STEPS_A_SECOND } from './world.ts';

/** A sentence without line end, and when it reached the boat's computer, UNIX seconds. */
export interface Said {
  at: number;
  text: string;
}

/** What is really the case. UNIX seconds, degrees true, SI units. */
export interface Truth {
  at: number;
  roller: LatLon;
  antenna: LatLon;
  anchor: LatLon;
  heading: number;
  /** Over the ground at the antenna, m/s. */
  velocity: Vector;
  /** At the masthead, over the ground. */
  wind: { from: number; speed: number };
  stream: { set: number; drift: number };
  /** Surface to bottom under the roller, m. */
  depth: number;
  /** Horizontal pull of the cable on the roller, N. */
  load: number;
  veered: number;
  /** Metres of cable on the bottom. */
  cableOnBottom: number;
  hold: AnchorHold;
  /** The anchor is moving over the bottom, faster than 2 mm/s (7 m an hour). */
  dragging: boolean;
  /** Metres between the anchor and where it lay at the start. */
  moved: number;
}

export interface Simulator {
  /** Lets this many seconds pass (default: one internal step of 0.1 s), rounded to whole internal steps. */
  step(seconds?: number): void;
  truth(): Truth;
  /** What the instruments have said since the last call, in order of time. */
  sentences(): Said[];
  /** Veers or heaves in to this many metres beyond the roller, as fast as the windlass can and until it stalls. */
  setCable(metres: number): void;
  /** Engine and helm: force ahead (N, astern negative) and moment to starboard (N·m). */
  setThrust(ahead: number, moment?: number): void;
}

/** Seconds from a moment to the sentence about it, and between two sentences on the same wire [P]. */
const DELAY = 0.05;
const SPACING = 0.012;
const DRAG_SPEED = 0.002;

/** A simulated anchorage at the start of its scenario. The same scenario and seed (an integer) give the same bytes. */
export function createSimulator(scenario: Scenario, seed: number): Simulator {
  const stream = randomStreams(seed);
  const world = createWorld(scenario, stream);
  const receiver = createReceiver(scenario.gnss, stream());
  const place = createPlace(scenario.start);
  const points = pointsOf(scenario.boat);
  const aboutFix = fixSentences(scenario, place);
  const aboutRest = instrumentSentences(scenario.instruments, scenario.boat, stream());
  const neighbours = createNeighbours(scenario.neighbours ?? [], place);
  const fixEvery = Math.round(scenario.gnss.every * STEPS_A_SECOND);
  const startAt = scenario.start.at;
  let steps = 0;
  let said: Said[] = [];
  let lastAt = startAt;

  const sends = scenario.instruments.sends.map(({ id, talker, every }, index) => {
    const ofFix = aboutFix[id];
    const unit = ofFix ? fixEvery : 1;
    const period = Math.max(unit, Math.round((every * STEPS_A_SECOND) / unit) * unit);
    return { talker, ofFix, ofRest: aboutRest[id], period, phase: ofFix ? 0 : index % period };
  });

  function say(text: string): void {
    const at = Math.max(startAt + world.t + DELAY, lastAt + SPACING);
    lastAt = Math.round(at * 1000) / 1000;
    said.push({ at: lastAt, text });
  }
  function felt(): Felt {
    const { boat, surroundings } = world;
    const heading = direction(degrees(boat.heading));
    const wind = apparentWind(surroundings.wind, boat, heading);
    const { water } = surroundings;
    return {
      heading,
      windAngle: wind.angle,
      windSpeed: wind.speed,
      waterSpeed:
        (boat.velocityEast - water.east) * Math.sin(boat.heading) +
        (boat.velocityNorth - water.north) * Math.cos(boat.heading),
      depth: world.depthAt(motionOf(boat, points.sounder)),
      veered: world.tackle.veered,
    };
  }
  function listen(): void {
    const fix =
      steps % fixEvery === 0 ? receiver.fix(world.t, motionOf(world.boat, points.antenna)) : undefined;
    let now: Felt | undefined;
    for (const { talker, ofFix, ofRest, period, phase } of sends) {
      if (steps % period !== phase) continue;
      if (fix && ofFix) say(ofFix(talker, fix));
      if (ofRest) {
        now ??= felt();
        say(ofRest(talker, now));
      }
    }
    if (steps % STEPS_A_SECOND === 0) {
      const { wind, water } = world.surroundings;
      for (const text of neighbours.second(Math.round(world.t), wind, water)) say(text);
    }
  }

  return {
    step(seconds = 1 / STEPS_A_SECOND) {
      for (let left = Math.round(seconds * STEPS_A_SECOND); left > 0; left--) {
        world.step();
        steps++;
        listen();
      }
    },
    truth() {
      const { boat, tackle, anchor, surroundings } = world;
      const antenna = motionOf(boat, points.antenna);
      const roller = motionOf(boat, points.roller);
      const { wind, water } = surroundings;
      return {
        at: startAt + world.t,
        roller: place(roller.east, roller.north),
        antenna: place(antenna.east, antenna.north),
        anchor: place(anchor.east, anchor.north),
        heading: direction(degrees(boat.heading)),
        velocity: { east: antenna.velocityEast, north: antenna.velocityNorth },
        wind: {
          from: directionOf({ east: -wind.east, north: -wind.north }),
          speed: Math.hypot(wind.east, wind.north),
        },
        stream: { set: directionOf(water), drift: Math.hypot(water.east, water.north) },
        depth: world.depthAt(roller),
        load: tackle.pull.size,
        veered: tackle.veered,
        cableOnBottom: tackle.onBottom,
        hold: anchor.hold,
        dragging: anchor.speed > DRAG_SPEED,
        moved: anchor.moved,
      };
    },
    sentences() {
      const out = said;
      said = [];
      return out;
    },
    setCable: (metres) => world.tackle.setCable(metres),
    setThrust(ahead, moment = 0) {
      world.thrust = { ahead, moment };
    },
  };
}
