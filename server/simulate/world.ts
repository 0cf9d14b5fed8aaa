import type { AnchorState } from './anchor.ts';
import { type BoatState, type Push, stepBoat } from './boat.ts';
import { hullOf } from './hull.ts';
import { motionOf, pointsOf } from './points.ts';
import type { Random } from './random.ts';
import type { Scenario } from './scenario.ts';
import { createSurroundings, depthAt, type Surroundings } from './surroundings.ts';
import { createTackle, type Tackle } from './tackle.ts';

/** Internal steps a second: a taut chain of a light boat swings at about 8 rad/s, which 0.1 s follows without blowing up. */
export const STEPS_A_SECOND = 10;
const DT = 1 / STEPS_A_SECOND;
/** The boat swings this long before the start, so that she lies as if she had lain there for a while, s. */
const SETTLING = 900;
/** She begins that at this part of the longest reach of her cable. */
const FIRST_REACH = 0.97;

/** Boat, cable, anchor, wind and water: the physics, without any instrument. */
export interface World {
  /** Seconds after the start. */
  readonly t: number;
  boat: BoatState;
  tackle: Tackle;
  anchor: AnchorState;
  surroundings: Surroundings;
  /** Engine and helm: force ahead (N), moment to starboard (N·m). */
  thrust: { ahead: number; moment: number };
  step(): void;
  depthAt(spot: { east: number; north: number }): number;
}

export function createWorld(scenario: Scenario, stream: () => Random): World {
  const hull = hullOf(scenario.boat, scenario.hull);
  const { roller: rollerPoint } = pointsOf(scenario.boat);
  const surroundings = createSurroundings(scenario, DT, { wind: stream(), water: stream() });
  const tackle = createTackle(scenario, DT, stream());
  let steps = -SETTLING * STEPS_A_SECOND;

  const boat: BoatState = {
    east: 0,
    north: 0,
    velocityEast: 0,
    velocityNorth: 0,
    heading: 0,
    turning: 0,
  };
  const push: Push = { ahead: 0, athwart: 0, moment: 0 };
  const world: World = {
    get t() {
      return steps / STEPS_A_SECOND;
    },
    boat,
    tackle,
    anchor: tackle.anchor,
    surroundings,
    thrust: { ahead: 0, moment: 0 },
    step() {
      const t = steps / STEPS_A_SECOND;
      surroundings.step(t);
      const roller = motionOf(boat, rollerPoint);
      tackle.step(t, roller, heightAt(t, roller));
      const { pull } = tackle;
      const sin = Math.sin(boat.heading);
      const cos = Math.cos(boat.heading);
      push.ahead = pull.east * sin + pull.north * cos + world.thrust.ahead;
      push.athwart = pull.east * cos - pull.north * sin;
      push.moment = push.athwart * rollerPoint.ahead + world.thrust.moment;
      stepBoat(boat, hull, surroundings.wind, surroundings.water, push, DT);
      steps++;
    },
    depthAt: (spot) => depthAt(scenario.seabed, world.t, spot.east, spot.north),
  };

  /** Roller above the bottom: on a gentle slope the mean of what is under the anchor and under the roller. */
  function heightAt(t: number, roller: { east: number; north: number }): number {
    const { seabed } = scenario;
    const under = depthAt(seabed, t, roller.east, roller.north);
    const atAnchor = depthAt(seabed, t, tackle.anchor.east, tackle.anchor.north);
    return (under + atAnchor) / 2 + scenario.boat.roller.height;
  }

  /** Lies down what wind and stream together push towards, if she felt both from ahead. */
  function layOut(): void {
    surroundings.step(world.t);
    const { wind, water } = surroundings;
    const air = 0.5 * 1.225 * hull.windAhead * Math.hypot(wind.east, wind.north);
    const sea = 0.5 * 1025 * hull.waterAhead * Math.hypot(water.east, water.north);
    const down = Math.atan2(air * wind.east + sea * water.east, air * wind.north + sea * water.north);
    const height = heightAt(world.t, { east: 0, north: 0 });
    const { veered } = scenario.cable;
    const reach = FIRST_REACH * Math.sqrt(Math.max(0, veered * veered - height * height));
    const roller = { east: reach * Math.sin(down), north: reach * Math.cos(down) };
    tackle.layTowards(roller);
    boat.heading = down + Math.PI;
    boat.east = roller.east + rollerPoint.ahead * Math.sin(down);
    boat.north = roller.north + rollerPoint.ahead * Math.cos(down);
  }

  layOut();
  while (steps < 0) world.step();
  return world;
}
