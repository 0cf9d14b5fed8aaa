import type { Priority } from '../shared/alerts/alert.ts';
import type { EngineState } from '../shared/engine.ts';

/** So the alert of a restart is told apart from other faults of the daemon. */
export const RESTART = 'restart';

/** A stop that a crew made on purpose, or a gap as short as this, seconds, needs no answer (our choice). */
const SHORT = 60;
/** The alert ends by itself before a warning that nobody answered would become an alarm (300 s): the watch is on again. */
const ENDS_AFTER = 240;

/** How the last run ended. */
export interface LastRun {
  /** Its last input, UNIX seconds on the journal's timeline. */
  last: number | undefined;
  /** It said goodbye. */
  tidy: boolean;
  /** What was seen of its end, in words. */
  ended?: string | undefined;
}

/** What the crew must hear after a restart at anchor: that nobody watched, how long, and why; undefined when nobody was to watch. */
export function downtime(
  { last, tidy, ended }: LastRun,
  now: number,
  phase: EngineState['watch']['phase'],
): { priority: Priority; text: string } | undefined {
  if (last === undefined || phase === 'no-mark') return undefined;
  const gap = Math.max(0, now - last);
  const why =
    ended ?? (tidy ? 'hawse was stopped' : 'hawse ended without a goodbye (power cut, crash or kill)');
  const from = new Date(last * 1000).toISOString().slice(11, 19);
  const text = `Nobody watched for ${spell(gap)} from ${from} UTC, by this computer's clock: ${why}. The watch is on again.`;
  return { priority: tidy || gap < SHORT ? 'caution' : 'warning', text };
}

/** Whether the alert of the restart has done its work: somebody has acknowledged it, or it has been there for a while. */
export const isTold = ({ alerts }: EngineState, raisedAt: number, now: number): boolean =>
  now - raisedAt >= ENDS_AFTER ||
  alerts.held.some(
    ({ alert }) =>
      alert.kind === 'daemon' &&
      alert.subject === RESTART &&
      alert.priority !== 'caution' &&
      alert.state === 'active-acknowledged',
  );

function spell(seconds: number): string {
  if (seconds < 120) return `${Math.ceil(seconds)} s`;
  if (seconds < 7200) return `${Math.round(seconds / 60)} min`;
  if (seconds < 48 * 3600) return `${(seconds / 3600).toFixed(1)} h`;
  return `${(seconds / 86_400).toFixed(1)} days`;
}
