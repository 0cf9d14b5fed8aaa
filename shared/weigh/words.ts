import { threeFigures } from '../quantities/angle.ts';
import { toKnots } from '../quantities/units.ts';
import type { GuidanceView, LeadView, Stay, WeighView } from './view.ts';

/** Words of the weighing monitor: what its warnings and its report say. One place, so that they agree with each other. */

export const metres = (value: number): string => `${value.toFixed(value < 9.95 ? 1 : 0)} m`;
export const knots = (speed: number): string => `${toKnots(speed).toFixed(1)} kn`;
export const course = threeFigures;

/** Off the bow: right ahead; 24° on the port bow; abeam to starboard. */
export function offBow(angle: number): string {
  const off = Math.round(Math.abs(angle));
  const side = angle < 0 ? 'port' : 'starboard';
  if (off <= 5) return 'right ahead';
  if (off >= 175) return 'right astern';
  if (off < 85) return `${off}° on the ${side} bow`;
  return off <= 95 ? `abeam to ${side}` : `${off}° to ${side}, abaft the beam`;
}

const STAYS: Record<Stay, string> = {
  long: 'long stay',
  short: 'short stay',
  'up-and-down': 'up and down',
  aweigh: 'aweigh',
};

const seen = ({ from }: LeadView): string => (from === 'foredeck' ? ' (foredeck)' : '');

export const leadFoul = (lead: LeadView): string =>
  Math.abs(lead.angle) > lead.limit
    ? `Cable leads ${offBow(lead.angle)}${seen(lead)}, aft of ${lead.limit}° for this hull: neutral, and bring the bow round to the cable.`
    : `Cable led foul; it leads ${offBow(lead.angle)}${seen(lead)} now.`;

export const leadFoulUnseen = 'The cable led foul when last known; its lead is not known now.';

export const cableTaut = (upAndDown: boolean): string =>
  upAndDown
    ? 'Cable is taut up and down and does not come: stop heaving, snub it, and ease ahead over the anchor.'
    : 'Cable is taut: stop heaving and come ahead first. The windlass must not pull the boat.';

export const overrun = (past: number): string =>
  past > 0
    ? `Bow is past the anchor by ${metres(past)}: stop, neutral, let her fall back off the cable.`
    : 'The bow was past the anchor; it has fallen back.';

export const overrunUnseen = 'The bow was past the anchor when last known.';

export function adrift(now: NonNullable<WeighView['adrift']> | undefined, told: boolean): string {
  const what = told ? 'Adrift' : 'The anchor has probably broken out: adrift';
  if (!now) return `${what}; how she moves is not known now.`;
  const shoal = now.shoal === undefined ? '' : `; too little water in about ${metres(now.shoal)}`;
  const edge =
    now.edge === undefined
      ? ''
      : now.edge > 0
        ? `; ${metres(now.edge)} to the circle's edge`
        : '; outside the circle';
  return `${what} at ${knots(now.speed)} to ${course(now.toward)}${shoal}${edge}.`;
}

const ENGINE: Record<GuidanceView['engine'], string> = {
  ahead: 'come ahead',
  'ahead-gently': 'ahead gently',
  neutral: 'neutral',
  'astern-gently': 'check her way astern, gently',
};

/** The whole in plain words, as a mate at the helm would say it. */
export function reportOf(view: WeighView): string {
  const { distance, bearing, lead, cable, stay, guidance, out, brokenOut } = view;
  if (brokenOut) {
    if (view.adrift) return `Aweigh. ${adrift(view.adrift, true)}`;
    return brokenOut.from === 'foredeck' ? 'Aweigh.' : 'The anchor has probably broken out.';
  }
  const parts: string[] = [];
  if (distance && bearing !== undefined) {
    const sure = distance.sigma < 1 ? '' : ` (± ${metres(2 * distance.sigma)})`;
    parts.push(`${metres(distance.value)}${sure} to the anchor, bearing ${course(bearing)}`);
  } else parts.push('No position: distance to the anchor is not known');
  if (lead) parts.push(`cable leads ${offBow(lead.angle)}`);
  if (stay) parts.push(stay.from === 'distance' ? `${STAYS[stay.name]} by distance only` : STAYS[stay.name]);
  if (cable && cable.certainty >= 0.6) parts.push(`cable ${cable.state}`);
  if (out && out.from !== 'bounds') parts.push(`about ${metres(out.value)} out`);
  const first = `${parts.join(', ')}.`;
  if (!guidance) return view.noGuidance ? `${first} ${view.noGuidance}` : first;
  const wind = guidance.windAngle === undefined ? '' : `, wind ${offBow(guidance.windAngle)}`;
  const slow = view.nearEnd ? 'Slow: almost over the anchor. ' : '';
  if (guidance.roundFirst)
    return `${first} Bring the bow round to ${course(guidance.course)}${wind} before coming ahead.`;
  return `${first} ${slow}Steer ${course(guidance.course)}${wind}; ${ENGINE[guidance.engine]}.`;
}
