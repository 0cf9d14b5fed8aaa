/** How long received sentences are kept; hawse.yaml, section `journal`. */
export interface Policy {
  /** Seconds after which a segment is removed. */
  keepSeconds: number;
  /** Bytes of all segments together, above which the oldest are removed. */
  keepBytes: number;
  /** Bytes that must stay free on the disk: below this the oldest are removed, and people are warned. */
  leastFree: number;
  /** Seconds after which a segment is packed. */
  packAfter: number;
}

const DAY = 86_400;

/** When nothing is said: about 1 GB a month of 20 sentences a second, a tenth of it packed, so 400 days fit into 5 GB. */
export const POLICY: Policy = {
  keepSeconds: 400 * DAY,
  keepBytes: 50e9,
  leastFree: 500e6,
  packAfter: 2 * DAY,
};

/**
 * What fills a disk is mostly not hawse. For the floor of free space alone nothing younger than this is given up, seconds: the last days
 * are what a crew may want to look at, and other things' appetite would eat them all the same.
 */
const KEPT_IN_NEED = 7 * DAY;

/** A segment as it is weighed: it holds inputs from `start` up to `end`, UNIX seconds. */
export interface Weighed {
  start: number;
  end: number;
  bytes: number;
}

export interface Present {
  /** The time now on the journal's timeline, UNIX seconds; undefined when nothing vouches for it: then age removes nothing. */
  now: number | undefined;
  /** Nothing from this time on is removed: the present anchorage. */
  keepFrom: number;
  /** Bytes free on the disk, when that is known. */
  free: number | undefined;
}

/** Which of `segments` (the oldest first) have to go, and why. The last one, which may be being written, never goes. */
export function outlived<T extends Weighed>(
  segments: readonly T[],
  policy: Policy,
  { now, keepFrom, free }: Present,
): { segment: T; why: 'age' | 'size' | 'room' }[] {
  let total = segments.reduce((sum, { bytes }) => sum + bytes, 0);
  let left = free ?? Number.POSITIVE_INFINITY;
  const gone: { segment: T; why: 'age' | 'size' | 'room' }[] = [];
  const newest = segments.at(-1)?.start ?? 0;
  for (const segment of segments.slice(0, -1)) {
    if (segment.end > keepFrom) break;
    const isOld = now !== undefined && segment.end <= now - policy.keepSeconds;
    const isInNeed = left < policy.leastFree && segment.end <= newest - KEPT_IN_NEED;
    const why = isOld ? 'age' : total > policy.keepBytes ? 'size' : isInNeed ? 'room' : undefined;
    if (!why) break;
    gone.push({ segment, why });
    total -= segment.bytes;
    left += segment.bytes;
  }
  return gone;
}
