import { add, directionOf, size, towards, type Vector } from '../quantities/vector.ts';
import { WIND_SHIFT } from './limits.ts';

/** Unit vectors towards where the wind came from, one a second, summed. */
interface Sum {
  vector: Vector;
  seconds: number;
}

/** Where the wind was when the mark or the limit was set, and where it was in the last two minutes. Plain data. */
export interface WindMemory {
  /** The limit that it serves; another limit begins another memory. */
  limit: number;
  sum: Sum;
  /** Reference direction, once known: where the wind blew from then, degrees true. */
  reference?: number;
  /** Ten seconds each, oldest first, with the time of its first second. */
  recent: (Sum & { from: number })[];
}

const BUCKET = 10;
const nothing = (): Sum => ({ vector: { east: 0, north: 0 }, seconds: 0 });

export const createWindMemory = (limit: number): WindMemory => ({ limit, sum: nothing(), recent: [] });

/** Adds one second of wind from direction `from` (degrees true), strong enough to have one. */
export function remember(memory: WindMemory, from: number, at: number): void {
  const unit = towards(1, from);
  if (memory.reference === undefined) {
    take(memory.sum, unit);
    if (memory.sum.seconds >= WIND_SHIFT.reference) {
      const reference = mean(memory.sum);
      if (reference !== undefined) memory.reference = reference;
      memory.sum = nothing();
    }
  }
  let bucket = memory.recent.at(-1);
  if (!bucket || at - bucket.from >= BUCKET) {
    bucket = { from: at, ...nothing() };
    memory.recent.push(bucket);
  }
  take(bucket, unit);
  while (at - memory.recent[0]!.from >= WIND_SHIFT.mean) memory.recent.shift();
}

/** Circular mean of the last two minutes, degrees true; undefined while they hold less than a minute of usable wind. */
export function recentMean(memory: WindMemory): number | undefined {
  const vector = { east: 0, north: 0 };
  let seconds = 0;
  for (const bucket of memory.recent) {
    vector.east += bucket.vector.east;
    vector.north += bucket.vector.north;
    seconds += bucket.seconds;
  }
  return seconds < WIND_SHIFT.leastOfMean ? undefined : mean({ vector, seconds });
}

function take(sum: Sum, unit: Vector): void {
  sum.vector = add(sum.vector, unit);
  sum.seconds++;
}

/** Mean direction; undefined when the directions hang together too little to have one. */
const mean = ({ vector, seconds }: Sum): number | undefined =>
  size(vector) < WIND_SHIFT.leastConcentration * seconds ? undefined : directionOf(vector);
