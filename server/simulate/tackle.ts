import { type AnchorState, createAnchor } from './anchor.ts';
import { type Bight, bightLength, bottomHold, dragBight, keepWithin, type Spot } from './bottom.ts';
import { hang } from './catenary.ts';
import type { Random } from './random.ts';
import type { Scenario } from './scenario.ts';

const GRAVITY = 9.80665;
/** What sea water (1025) leaves of the weight of steel (7850 kg/m³). */
const IN_WATER = 1 - 1025 / 7850;
/** Spring of short-link chain by its mass: E·A of about 0.85e11·d² N for d metres [M], with d² of 0.0000443 m² for each kg/m. */
const CHAIN_STIFFNESS = 0.85e11 * 4.43e-5;
/** Part of the pull that mud and water take while the cable is drawn out, and keep back while it falls in, at this speed [P]. */
const DRAG_PART = 0.25;
const DRAG_SPEED = 0.4;
/** How hard it is to draw the bow under, N/m [P]. */
const BOW_BUOYANCY = 15_000;
/** What a broken-out anchor of such a boat resists on the bottom, N [P]. */
const LOOSE_RESISTANCE = 220;

/** Windlass: metres a second in and out, and the pull at which it stalls, N [P]. */
const HEAVES = 0.25;
const VEERS = 0.8;
const STALLS = 6000;

/** Anchor, cable and what they do to the roller. */
export interface Tackle {
  anchor: AnchorState;
  /** Metres out beyond the roller. */
  veered: number;
  /** Metres on the bottom. */
  onBottom: number;
  /** Pull on the roller, N: towards east and north, and its size, never negative. */
  pull: { east: number; north: number; size: number };
  /** One step. `roller`: where it is and how it moves, m and m/s; `height`: of the roller above the bottom, m. */
  step(t: number, roller: Spot & { velocityEast: number; velocityNorth: number }, height: number): void;
  /** Veers or heaves in to this many metres, as fast as the windlass can. */
  setCable(metres: number): void;
  /** Lays the cable straight from the anchor towards a spot. */
  layTowards(spot: Spot): void;
}

export function createTackle(scenario: Scenario, dt: number, random: Random): Tackle {
  const { massPerMetre } = scenario.cable;
  const weight = massPerMetre * GRAVITY * IN_WATER;
  const works = createAnchor(scenario.anchor, LOOSE_RESISTANCE, dt, random);
  const anchor = works.state;
  const bight: Bight = { east: 0, north: 0, length: 0 };
  /** Along the cable, N: what the windlass has to bring in. */
  let strain = 0;
  let lastBight = 0;
  let lastWhole = 0;
  let sized: number | undefined;
  let wanted = scenario.cable.veered;

  const tackle: Tackle = {
    anchor,
    veered: scenario.cable.veered,
    onBottom: 0,
    pull: { east: 0, north: 0, size: 0 },
    step(t, roller, height) {
      const out = wanted - tackle.veered;
      const stalled = out < 0 && strain > STALLS;
      if (out !== 0 && !stalled) tackle.veered += Math.min(VEERS * dt, Math.max(-HEAVES * dt, out));
      if (sized !== tackle.veered) {
        bight.length = bightLength(bight.length, tackle.veered, height);
        keepWithin(bight, anchor);
        sized = tackle.veered;
      }
      if (anchor.hold === 'parted') {
        letGo();
      } else if (tackle.veered > height * 1.001) {
        if (anchor.hold === 'aweigh') works.lieAgain();
        ride(t, roller, height);
      } else upAndDown(t, roller, height);
    },
    setCable(metres) {
      wanted = Math.max(0, metres);
    },
    layTowards(spot) {
      bight.east = spot.east;
      bight.north = spot.north;
      sized = undefined;
    },
  };

  const letGo = () => {
    tackle.pull = { east: 0, north: 0, size: 0 };
    tackle.onBottom = 0;
    strain = 0;
  };

  /** Riding to the cable: it hangs from the bight while that lies on the bottom, else straight from the anchor. */
  function ride(t: number, roller: Parameters<Tackle['step']>[1], height: number): void {
    const length = tackle.veered;
    const spring = springOf(scenario.snubber, massPerMetre, length);
    const east = bight.east - roller.east;
    const north = bight.north - roller.north;
    const away = Math.hypot(east, north);
    const fromBight = hang({ length: length - bight.length, weight, spring }, away, height, lastBight);
    lastBight = fromBight.a;
    let held = fromBight;
    const lies = fromBight.onBottom > 0;
    if (!lies) {
      const span = Math.hypot(anchor.east - roller.east, anchor.north - roller.north);
      held = hang({ length, weight, spring }, span, height, lastWhole);
      lastWhole = held.a;
    }
    const lifting = liftingPull(weight, length - bight.length, height);
    const still = lies ? held.pull : Math.max(held.pull, lifting);
    const toward = away > 1e-9 ? { east: east / away, north: north / away } : { east: 0, north: 0 };
    const drawn = -(roller.velocityEast * toward.east + roller.velocityNorth * toward.north);
    const size = still * (1 + DRAG_PART * Math.tanh(drawn / DRAG_SPEED));
    tackle.pull = { east: size * toward.east, north: size * toward.north, size };
    tackle.onBottom = held.onBottom + (lies ? bight.length : 0);
    const bightTaut = dragBight(
      bight,
      anchor,
      { east: -still * toward.east, north: -still * toward.north },
      lies,
      weight,
      dt,
    );
    const atAnchor = bightTaut ? Math.max(0, still - bottomHold(tackle.onBottom, weight)) : 0;
    works.step(t, atAnchor, along(anchor, bight, roller), still * held.rises, held.rises);
    keepWithin(bight, anchor);
    strain = size;
  }

  /** Less cable than water: it leads straight up and draws the bow down, until the anchor breaks out and hangs. */
  function upAndDown(t: number, roller: Spot, height: number): void {
    if (anchor.hold === 'loose' || anchor.hold === 'aweigh') {
      letGo();
      works.hangAt(roller);
      return;
    }
    const east = anchor.east - roller.east;
    const north = anchor.north - roller.north;
    const span = Math.hypot(east, north);
    const straight = Math.hypot(span, height);
    const tension = BOW_BUOYANCY * Math.max(0, straight - tackle.veered);
    const size = (tension * span) / straight;
    strain = tension;
    const toward = span > 1e-9 ? { east: east / span, north: north / span } : { east: 0, north: 0 };
    tackle.pull = { east: size * toward.east, north: size * toward.north, size };
    tackle.onBottom = 0;
    works.step(
      t,
      size,
      { east: -toward.east, north: -toward.north },
      (tension * height) / straight,
      height / Math.max(span, 1e-6),
    );
  }
  return tackle;
}

/** Snubber (when there is one) and chain one behind the other, N/m. */
function springOf(snubber: number | undefined, massPerMetre: number, length: number): number {
  const chain = (CHAIN_STIFFNESS * massPerMetre) / length;
  return snubber === undefined ? chain : 1 / (1 / snubber + 1 / chain);
}

/** Horizontal pull that just lifts all of a line, N. */
const liftingPull = (weight: number, length: number, height: number): number =>
  (weight * (length * length - height * height)) / (2 * height);

/** Unit vector from the anchor to its bight, or to the roller when the bight lies at the anchor. */
function along(anchor: Spot, bight: Bight, roller: Spot): { east: number; north: number } {
  const end = bight.length > 0.5 ? bight : roller;
  const east = end.east - anchor.east;
  const north = end.north - anchor.north;
  const away = Math.hypot(east, north);
  return away > 1e-9 ? { east: east / away, north: north / away } : { east: 0, north: 0 };
}
