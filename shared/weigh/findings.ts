import type { Finding } from '../alerts/alert.ts';
import { radians } from '../quantities/angle.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { isUnderWay } from './adrift.ts';
import { lasting } from './lasting.ts';
import { ADRIFT, CABLE, LEAD, RULES } from './limits.ts';
import { weighView } from './look.ts';
import type { Given, WeighState } from './state.ts';
import type { WeighView } from './view.ts';
import * as words from './words.ts';

/**
 * What holds at `at` (UNIX seconds): all of it, each time. To be asked at each fix, at each whole second and after each order. One
 * situation, one finding: past the anchor it is an overrun and no foul lead; free of the bottom nothing but adrift counts.
 */
export function findings(
  state: WeighState,
  settings: Settings,
  vessel: VesselView,
  given: Given | undefined,
  at: number,
): Finding[] {
  const view = weighView(state, settings, vessel, given);
  const free = state.brokenOut !== undefined;
  const past = free ? -1 : pastBy(view, vessel);
  const overrun = lasting(
    state,
    'overrun',
    RULES.overrun,
    free ? false : past === undefined ? undefined : past > 0,
    at,
  );
  const found = [
    overrun &&
      ({
        kind: 'overrun',
        priority: 'warning',
        text: past === undefined ? words.overrunUnseen : words.overrun(past),
        ...(past !== undefined && past > 0 ? { value: past } : {}),
      } as const),
    leadFoul(state, view, vessel, overrun || free, at),
    cableTaut(state, view, free, at),
    adrift(state, view, vessel, at),
  ];
  return found.filter((finding) => finding !== false && finding !== undefined);
}

/** How far the roller is past the anchor, metres, beyond its sigma and while the cable is short; ≤ 0: it is not. */
function pastBy(
  { distance, height, lead, out, stay }: WeighView,
  { positionDoubt }: VesselView,
): number | undefined {
  if (!distance || !height || !lead || positionDoubt || lead.from === 'foredeck') return undefined;
  if (stay?.name === 'up-and-down') return 0;
  const past = -distance.value * Math.cos(radians(lead.angle));
  const short = distance.value < 2 * height.value || (out !== undefined && out.value < 3 * height.value);
  return short && past > distance.sigma ? past : 0;
}

function leadFoul(
  state: WeighState,
  { lead, cable, stay, distance }: WeighView,
  { positionDoubt }: VesselView,
  elsewhere: boolean,
  at: number,
): Finding | undefined {
  const key = 'lead-foul';
  let foul: boolean | undefined;
  // Straight up and down it leads nowhere; sure slack it hangs from the roller and bears on nothing.
  const easy =
    stay?.name === 'up-and-down' ||
    (lead?.from !== 'foredeck' && cable?.state === 'slack' && cable.certainty >= CABLE.sureSlack);
  if (elsewhere || easy) foul = false;
  else if (lead && (lead.from === 'foredeck' || (distance && !positionDoubt))) {
    // An hour of the clock is 30° wide: the benefit of the doubt.
    const off = Math.abs(lead.angle) - (lead.from === 'foredeck' ? LEAD.clockDoubt : 0);
    foul =
      off > lead.limit
        ? true
        : off <= lead.limit - LEAD.hysteresis
          ? false
          : (state.spells[key]?.holds ?? false);
  }
  // At anchor she sheers; it matters at once when the cable is being worked, also while there is no position to see her under way by.
  const rule = state.underWay || state.everHeaved ? RULES.leadFoul : RULES.leadFoulAtAnchor;
  if (!lasting(state, key, rule, foul, at)) return undefined;
  const finding = { kind: 'lead-foul', priority: 'warning' } as const;
  if (!lead) return { ...finding, text: words.leadFoulUnseen };
  return { ...finding, text: words.leadFoul(lead), value: Math.abs(lead.angle), limit: lead.limit };
}

/** Taut while the windlass heaves: it pulls the boat, or an anchor that does not come. A snubbed cable may be taut. */
function cableTaut(
  state: WeighState,
  { cable, heaving, stay }: WeighView,
  free: boolean,
  at: number,
): Finding | undefined {
  const upAndDown = stay?.name === 'up-and-down';
  const taut = cable && cable.state === 'taut' && cable.certainty >= CABLE.sureTaut;
  const now = free || !heaving ? false : cable ? taut : undefined;
  const rule = upAndDown ? RULES.cableTautUpAndDown : RULES.cableTaut;
  if (!lasting(state, 'cable-taut', rule, now, at)) return undefined;
  return { kind: 'cable-taut', priority: 'warning', text: words.cableTaut(upAndDown) };
}

/**
 * Loose and nobody has said so; or known to be aweigh, and carried towards the edge or into shoal water within a minute
 * while she does not move along her heading.
 */
function adrift(
  state: WeighState,
  { adrift: now, brokenOut }: WeighView,
  vessel: VesselView,
  at: number,
): Finding | undefined {
  const told = brokenOut?.from === 'foredeck';
  const underWay = now && isUnderWay(vessel, now.toward);
  const near = now && Math.min(now.edge ?? Infinity, now.shoal ?? Infinity) < now.speed * ADRIFT.danger;
  const holds = now !== undefined && underWay !== true && (!told || near === true);
  if (!lasting(state, 'adrift', RULES.adrift, holds, at)) return undefined;
  return {
    kind: 'adrift',
    priority: told ? 'warning' : 'alarm',
    text: words.adrift(now, told),
    ...(now ? { value: now.speed } : {}),
  };
}
