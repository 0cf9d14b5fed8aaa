import type { PlanAnswer } from '../../../shared/messages/plan.ts';
import { joined, length, ownClock, speed } from '../../format.ts';
import { words } from '../../words.ts';
import { FIELDS, type Key } from './fields.ts';
import type { Standing, Worked } from './worked.ts';

/** The plan in plain words: what to veer, and what speaks against it. */

/** An upward pull of less than this counts as none, degrees (as the planner counts it, shared/plan/veer.ts). */
const FLAT = 0.1;

export const one = (value: number): string => value.toFixed(1).replace('-', '−');

/** Degrees with tenths: an anchor knows 4.6° from 5.4°. */
export const angle = (value: number): string => `${one(value)}°`;

export function planned({ request, answer: { items } }: Worked): string {
  const { planner } = words;
  const veer = joined(length(items.veer.value));
  const wind = joined(speed(request.wind));
  const lift = items.angleAtAnchor.value;
  const holds = lift < FLAT;
  const asked = request.veer !== undefined;
  const scope = one(items.scope.value);
  const pull = holds
    ? (asked ? planner.asked : planner.found)(veer, wind, scope)
    : (asked ? planner.lifts : planner.notEnough)(veer, wind, angle(lift));
  return [pull, ...graveCautions(items)].join(' ');
}

/** What no length of cable mends is said in the same breath. */
const graveCautions = (items: PlanAnswer['items']): string[] =>
  [items.underKeelLow.value <= 0 && items.underKeelLow.caution, items.roomLeft?.caution].filter(
    (caution) => typeof caution === 'string',
  );

export function headline(standing: Standing): string {
  const { planner } = words;
  switch (standing.status) {
    case 'worked':
      return planned(standing.plan);
    case 'working':
      return planner.working;
    case 'incomplete': {
      const first = (Object.keys(FIELDS) as Key[]).find((key) => standing.faults[key]);
      return first ? planner.incomplete(planner.fields[first].label) : planner.incompleteChain;
    }
    case 'refused':
      return standing.refusal.rest[0] ?? planner.refused;
    case 'unanswered':
      return planner.unanswered;
  }
}

/** What to keep in mind, gravest first; what the sentence says already is not said again. */
export function cautions({ request, answer }: Worked): string[] {
  const said = graveCautions(answer.items);
  const { riseToHigh, fallToLow, stream } = request;
  return [
    ...answer.cautions.filter((caution) => !said.includes(caution)),
    ...(!riseToHigh && !fallToLow ? [words.planner.noTide] : []),
    ...(!stream ? [words.planner.noStream] : []),
  ];
}

export const keptSince = ({ at }: Worked): string => words.planner.kept(ownClock(at));
