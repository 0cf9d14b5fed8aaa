import { hypot, size, subtract, towards, type Vector } from '../quantities/vector.ts';
import { clearWater, type HullLine } from './hull.ts';

/** A vessel on her cable: her anchor in metres east and north, roller's reach from it, length and breadth, all in metres. */
export interface Swinging {
  anchor: Vector;
  reach: number;
  length: number;
  beam: number;
}

/** Both look the same way: every ten degrees is fine enough to find the least, which is then sought finer. */
const STEP = 10;

/** `away`: unit vector from her anchor to her. */
const lying = ({ anchor, reach, length, beam }: Swinging, away: Vector): HullLine => ({
  bow: { east: anchor.east + away.east * reach, north: anchor.north + away.north * reach },
  stern: {
    east: anchor.east + away.east * (reach + length),
    north: anchor.north + away.north * (reach + length),
  },
  half: beam / 2,
});

/** Least clear water when both swing together, all round, each in line with her cable, m; negative: they would touch. */
export function togetherLeast(a: Swinging, b: Swinging): number {
  const at = (direction: number) => {
    const away = towards(1, direction);
    return clearWater(lying(a, away), lying(b, away));
  };
  let best = 0;
  let least = at(best);
  const look = (direction: number) => {
    const clear = at(direction);
    if (!(clear < least)) return;
    best = direction;
    least = clear;
  };
  for (let direction = STEP; direction < 360; direction += STEP) look(direction);
  for (let step = STEP / 2; step > 0.1; step /= 2)
    for (const direction of [best - step, best + step]) look(direction);
  return least;
}

/** Least clear water when each may lie any way, as in a calm or at the turn of the tide, m; negative: their circles overlap. */
export function outOfStepLeast(a: Swinging, b: Swinging): number {
  const apart = size(subtract(a.anchor, b.anchor));
  return apart - hypot(a.reach + a.length, a.beam / 2) - hypot(b.reach + b.length, b.beam / 2);
}
