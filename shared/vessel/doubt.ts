/** Why the position should not be trusted; `until` is when that passes unless it is seen again. */
export interface Doubt {
  kind: 'step' | 'wander' | 'quality' | 'receivers';
  reason: string;
  since: number;
  until: number;
}

/** Seconds that a doubt outlives its last cause (our choice): a jump puts the next minute in doubt, a state ends when it is over. */
const HOLD: Record<Doubt['kind'], number> = { step: 60, wander: 60, quality: 15, receivers: 15 };

/** The doubt after one more cause: the same doubt goes on, so that `since` tells when trust was lost. */
export function doubted(doubt: Doubt | undefined, kind: Doubt['kind'], reason: string, at: number): Doubt {
  const until = at + HOLD[kind];
  if (!doubt || at > doubt.until) return { kind, reason, since: at, until };
  return {
    kind,
    reason: kind === doubt.kind && kind !== 'step' ? doubt.reason : reason,
    since: doubt.since,
    until: Math.max(until, doubt.until),
  };
}
