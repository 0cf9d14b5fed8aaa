import type { Finding } from '../alerts/alert.ts';
import { NEIGHBOURS } from './limits.ts';
import type { Own } from './own.ts';
import type { NeighboursState } from './state.ts';
import type { NeighbourView } from './view.ts';
import { drags, isNear, liesOver, passes } from './words.ts';

/** What is found of the neighbours at `own.at`: at most one finding each, the gravest. Counts how long things last. */
export function findNeighbours(state: NeighboursState, views: NeighbourView[], own: Own): Finding[] {
  const found: Finding[] = [];
  for (const view of views) {
    const finding =
      drag(state, view, own.at) ??
      pass(state, view, own.at) ??
      near(state, view, own) ??
      over(state, view, own);
    if (finding) found.push({ kind: 'vessel-near', subject: view.id, ...finding });
  }
  state.lasting = state.lasting.filter(
    ({ seen, holds }) => own.at - seen <= (holds ? NEIGHBOURS.end : NEIGHBOURS.every),
  );
  return found;
}

type Found = Omit<Finding, 'kind' | 'subject'> | undefined;

function drag(state: NeighboursState, view: NeighbourView, at: number): Found {
  const drags_ = view.dragging;
  if (!lasts(state, view, 'drag', at, drags_ !== undefined) || !drags_) return undefined;
  const soon = drags_.reachesUsIn !== undefined && drags_.reachesUsIn < NEIGHBOURS.reachesAlarm;
  const priority = soon ? 'alarm' : drags_.reachesUsIn === undefined ? 'caution' : 'warning';
  return { priority, text: drags(view), value: drags_.beyond };
}

function pass(state: NeighboursState, view: NeighbourView, at: number): Found {
  const close = view.passing !== undefined && view.passing.distance < NEIGHBOURS.passing.distance;
  if (!lasts(state, view, 'pass', at, close) || !view.passing) return undefined;
  return {
    priority: 'warning',
    text: passes(view),
    value: view.passing.distance,
    limit: NEIGHBOURS.passing.distance,
  };
}

/** A vessel that is moored or at anchor near us; one that is stale is where she was: told as such by the page, no reason to wake anybody. */
function near(state: NeighboursState, view: NeighbourView, { at, weighing }: Own): Found {
  const { distance, activity, stale, from, bearing } = view;
  if (distance === undefined || bearing === undefined || stale || weighing || from === 'hand')
    return undefined;
  if (activity === 'under-way') return undefined;
  const held = state.lasting.some(({ key, holds }) => key === `${view.id}/near` && holds);
  const limit = NEIGHBOURS.near + (held ? NEIGHBOURS.nearEnds : 0);
  if (!lasts(state, view, 'near', at, distance < limit)) return undefined;
  return { priority: 'warning', text: isNear(view), value: distance, limit: NEIGHBOURS.near };
}

/** While she lies there she hinders nobody but who weighs. */
function over(state: NeighboursState, view: NeighbourView, { at, weighing }: Own): Found {
  if (!lasts(state, view, 'over', at, view.overOurAnchor === true)) return undefined;
  return { priority: weighing ? 'warning' : 'caution', text: liesOver(view) };
}

/** Has it held for long enough, and not been gone for too long? */
function lasts(
  state: NeighboursState,
  view: NeighbourView,
  what: string,
  at: number,
  holdsNow: boolean,
): boolean {
  const key = `${view.id}/${what}`;
  let entry = state.lasting.find((kept) => kept.key === key);
  if (!entry) {
    if (!holdsNow) return false;
    entry = { key, since: at, seen: at, holds: false };
    state.lasting.push(entry);
  }
  if (holdsNow) {
    entry.seen = at;
    if (at - entry.since >= NEIGHBOURS.confirm) entry.holds = true;
  } else if (!entry.holds || at - entry.seen > NEIGHBOURS.end) {
    state.lasting.splice(state.lasting.indexOf(entry), 1);
    return false;
  }
  return entry.holds;
}
