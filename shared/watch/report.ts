import type { Alert, Priority } from '../alerts/alert.ts';
import type { VesselView } from '../vessel/view.ts';
import type { WatchView } from './view.ts';
import { bearing, cableSupposed, knots, metres, offTheBow, positionLost } from './words.ts';

/** From which sigma on (metres) a distance is told with its uncertainty. */
const WORTH_TELLING = 5;

/**
 * The state as a good watch-keeper would report it: the most urgent alarm or warning first (alerts in the order of `list`), then
 * how she lies. Distances whose uncertainty matters are told with two sigma.
 */
export function report(view: WatchView, vessel: VesselView, alerts: readonly Alert[]): string {
  const [first, ...others] = mostUrgentFirst(alerts);
  const parts = first ? [first.text] : [];
  if (others.length > 0)
    parts.push(others.length === 1 ? 'One more alert.' : `${others.length} more alerts.`);
  parts.push(...lie(view, vessel, first?.kind));
  return parts.join(' ');
}

const RANK: Record<Priority, number> = { alarm: 2, warning: 1, caution: 0 };

/** Alarms and warnings whose cause holds; an equal rank keeps its order. */
function mostUrgentFirst(alerts: readonly Alert[]): Alert[] {
  return alerts
    .filter(({ state, priority }) => state !== 'rectified-unacknowledged' && priority !== 'caution')
    .sort((a, b) => RANK[b.priority] - RANK[a.priority]);
}

function lie(view: WatchView, vessel: VesselView, told: Alert['kind'] | undefined): string[] {
  const { phase, circle, standDown } = view;
  if (phase === 'no-mark') return ['No mark: hawse is not watching. Let go marks the anchor.'];
  const weighing = phase === 'weighing';
  const where = toAnchor(view, told === 'outside-circle');
  const parts: string[] = [];
  // Who sees nothing is not watching, and does not say so.
  if (weighing) parts.push('Weighing.');
  else if (where) parts.push('Watching.');
  if (where) parts.push(where);
  else if (told !== 'position-lost') parts.push(unseen(vessel));
  if (where && !weighing) parts.push(...inStream(view));
  if (vessel.positionDoubt && told !== 'position-doubtful') parts.push('The position is doubtful.');
  if (!weighing && !circle) parts.push('No circle: tell hawse how much cable is veered.');
  if (view.dragUnseen !== undefined && !vessel.positionDoubt) parts.push(view.dragUnseen);
  else if (!weighing && view.cableSupposed !== undefined) parts.push(cableSupposed(view.cableSupposed));
  if (standDown.length > 0)
    parts.push(`Not watched now: ${standDown.map((kind) => kind.replace('-', ' ')).join(', ')}.`);
  return parts;
}

/** From these on the stream is worth a sentence: degrees that wind and stream push apart, m/s. */
const APART = 45;
const STREAM = 0.25;

function inStream({ lie }: WatchView): string[] {
  if (!lie?.stream || lie.stream.drift.value < STREAM) return [];
  const apart = lie.divergence === undefined ? undefined : Math.abs(lie.divergence);
  if (lie.to !== 'stream' && (apart ?? 0) < APART) return [];
  const { set, drift } = lie.stream;
  const to =
    lie.to === 'both'
      ? 'Lying between wind and stream'
      : lie.to
        ? `Lying to the ${lie.to}`
        : 'The stream runs';
  const push = apart === undefined ? '' : `; wind and stream push ${Math.round(apart)}° apart`;
  return [`${to}, ${knots(drift.value)} to ${bearing(set.value)}${push}.`];
}

function toAnchor(
  { phase, distance, bearing: towards, lead, circle }: WatchView,
  told: boolean,
): string | undefined {
  if (!distance || towards === undefined) return undefined;
  const weighing = phase === 'weighing';
  const sure = distance.sigma < WORTH_TELLING ? '' : ` (± ${metres(2 * distance.sigma)})`;
  const allowed = circle && !weighing && !told ? ` of ${metres(circle.radius)} allowed` : '';
  const off = weighing && lead !== undefined ? `, ${offTheBow(lead)}` : '';
  return `${metres(distance.value)}${sure} to the anchor${allowed}, bearing ${bearing(towards)}${off}.`;
}

function unseen({ ages }: VesselView): string {
  if (ages.position === undefined) return 'No position yet: hawse cannot see whether she holds.';
  return positionLost(ages.position);
}
