import type { Spot } from './bottom.ts';
import type { Random } from './random.ts';
import type { Anchor, AnchorEvent } from './scenario.ts';
import { createWander } from './wander.ts';

/** `held` also while it creeps; `loose`: it slides on the bottom; `aweigh`: it hangs; `parted`: the cable ends nowhere. */
export type AnchorHold = 'held' | 'loose' | 'aweigh' | 'parted';

export interface AnchorState extends Spot {
  hold: AnchorHold;
  /** Metres that it lies from where it was let go. */
  moved: number;
  /** Its speed over the bottom, smoothed over some seconds, m/s. */
  speed: number;
}

/**
 * What is left of the holding when the shank is lifted by so many degrees: 5° a quarter less, 15° half (textbook, see reference
 * §1.6 [F]); beyond that [P].
 */
const LIFTED = [
  [0, 1],
  [5, 0.75],
  [15, 0.5],
  [35, 0.15],
  [90, 0.05],
] as const;
const FASTEST = 2;
const STEP_SPEED = 0.4;
/** An anchor that lies loose ploughs against this, N, for each m/s. */
const LOOSE_CREEP = 500;
/** 1/e times of the bottom's patches along the way, and of the speed told, s. */
const PATCH_TIME = 120;
const SPEED_TIME = 20;

export interface AnchorWorks {
  state: AnchorState;
  /**
   * One step under a pull along the bottom (N, towards a unit vector) and an upward pull; `rises`: tangent of the angle it is
   * lifted by. Before the start (t < 0) it stays where it is.
   */
  step(t: number, load: number, toward: { east: number; north: number }, up: number, rises: number): void;
  /** Follows the roller while it hangs. */
  hangAt(spot: Spot): void;
  lieAgain(): void;
}

export function createAnchor(anchor: Anchor, residual: number, dt: number, random: Random): AnchorWorks {
  const state: AnchorState = { east: 0, north: 0, hold: 'held', moved: 0, speed: 0 };
  const patch = createWander(anchor.patchiness ?? 0, PATCH_TIME, dt, random);
  const waiting: AnchorEvent[] = [...(anchor.events ?? [])].sort((a, b) => a.at - b.at);
  let resistance = residual;
  let ploughed = 0;
  let resetsAfter = Number.POSITIVE_INFINITY;
  let stepsLeft = 0;

  function happen(event: AnchorEvent): void {
    if (event.happens === 'parts') {
      state.hold = 'parted';
      state.speed = 0;
    }
    if (event.happens === 'steps') stepsLeft += event.metres;
    if (event.happens === 'trips' && state.hold === 'held') {
      breakOut(event.residual, event.resetsAfter);
    }
  }
  function breakOut(against: number, until = Number.POSITIVE_INFINITY): void {
    state.hold = 'loose';
    resistance = against;
    resetsAfter = until;
    ploughed = 0;
  }
  function speedUnder(load: number, rises: number): number {
    if (state.hold === 'loose') return Math.max(0, load - resistance) / LOOSE_CREEP;
    if (anchor.holding === undefined) return 0;
    const holds = anchor.holding * (1 + patch.value) * leftOf(rises);
    return Math.max(0, load - holds) / (anchor.creep ?? LOOSE_CREEP);
  }

  return {
    state,
    step(t, load, toward, up, rises) {
      while (waiting[0] && waiting[0].at <= t) happen(waiting.shift()!);
      if (state.hold === 'parted' || state.hold === 'aweigh') return;
      patch.step();
      if (t < 0) return;
      if (state.hold === 'held' && up > anchor.breakOut) breakOut(residual);
      let speed = speedUnder(load, rises);
      if (stepsLeft > 0) {
        speed = Math.max(speed, STEP_SPEED);
        stepsLeft -= speed * dt;
      }
      speed = Math.min(speed, FASTEST);
      state.east += toward.east * speed * dt;
      state.north += toward.north * speed * dt;
      state.moved = Math.hypot(state.east, state.north);
      state.speed += ((speed - state.speed) * dt) / SPEED_TIME;
      ploughed += speed * dt;
      if (state.hold === 'loose' && ploughed >= resetsAfter) state.hold = 'held';
    },
    hangAt(spot) {
      state.hold = 'aweigh';
      state.east = spot.east;
      state.north = spot.north;
      state.moved = Math.hypot(spot.east, spot.north);
      state.speed = 0;
    },
    lieAgain() {
      breakOut(residual);
    },
  };
}

function leftOf(rises: number): number {
  const angle = (Math.atan(rises) * 180) / Math.PI;
  for (let i = 1; i < LIFTED.length; i++) {
    const [to, after] = LIFTED[i]!;
    const [from, before] = LIFTED[i - 1]!;
    if (angle <= to) return before + ((after - before) * (angle - from)) / (to - from);
  }
  return 0;
}
