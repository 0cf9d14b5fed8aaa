import type { Finding } from './alerts/alert.ts';
import type { VesselView } from './vessel/view.ts';

/** A clock this far from the receiver's UTC would mislead whoever reads the log; our choice, common practice, no source. */
const TOLERATED_SECONDS = 5;

/** A caution while the computer's clock and the GNSS receiver's UTC disagree; times shown to people follow the receiver. */
export function clockFinding(vessel: VesselView): Finding | undefined {
  const offset = vessel.clockOffset;
  if (offset === undefined || Math.abs(offset) <= TOLERATED_SECONDS) return undefined;
  const side = offset > 0 ? 'slow' : 'fast';
  return {
    kind: 'clock',
    priority: 'caution',
    text: `The computer's clock is ${Math.round(Math.abs(offset))} s ${side} of the receiver's UTC. Times shown follow the receiver; the log keeps its own. Set that clock, and restart hawse when nobody sleeps by it.`,
    value: offset,
    limit: TOLERATED_SECONDS,
  };
}
