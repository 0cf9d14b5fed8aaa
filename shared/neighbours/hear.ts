import { assemble } from '../ais/assemble.ts';
import { bitsOf } from '../ais/bits.ts';
import { type AisMessage, readMessage } from '../ais/message.ts';
import type { Sentence } from '../sentences/decoded.ts';
import { NEIGHBOURS } from './limits.ts';
import type { NeighboursState, Target } from './state.ts';

/** Takes the AIS part of a decoded sentence, if it has one, heard at `at` (UNIX seconds) on input `source`. What cannot be read is counted with its reason. */
export function hearAis(
  state: NeighboursState,
  sentence: Sentence,
  at: number,
  source: string,
  ownNumber: number | undefined,
): void {
  if (sentence.id !== 'VDM' && sentence.id !== 'VDO') return;
  if (ownNumber !== undefined) state.own = ownNumber;
  for (const said of sentence.observations) {
    if (said.kind !== 'ais-fragment') continue;
    const whole = assemble(state.parts, said, source, at);
    if (!whole) continue;
    const read = readMessage(bitsOf(whole.payload, whole.fillBits));
    if (!read.ok) {
      state.heard[read.reason]++;
      if (read.reason === 'malformed') state.heard.lastRefusal = `${source}: ${read.why}`;
      continue;
    }
    state.heard.read++;
    if (said.own) {
      state.own = read.message.mmsi;
      state.targets = state.targets.filter(({ mmsi }) => mmsi !== state.own);
    } else if (read.message.mmsi !== state.own) {
      takeMessage(state, read.message, at);
    }
  }
}

function takeMessage(state: NeighboursState, message: AisMessage, at: number): void {
  let target = state.targets.find(({ mmsi }) => mmsi === message.mmsi);
  if (!target) {
    target = { mmsi: message.mmsi, heardAt: at, at, places: [] };
    state.targets.push(target);
    if (state.targets.length > NEIGHBOURS.most) forgetOne(state);
  }
  target.heardAt = at;
  for (const key of ['name', 'shipType', 'extent'] as const)
    if (message[key] !== undefined) (target as Record<typeof key, unknown>)[key] = message[key];
  if (message.type !== 5 && message.type !== 24) takePlace(target, message, at);
}

/** The one that was heard longest ago goes: it is the one that is least there. */
function forgetOne(state: NeighboursState): void {
  let oldest = 0;
  for (let i = 1; i < state.targets.length; i++)
    if (state.targets[i]!.heardAt < state.targets[oldest]!.heardAt) oldest = i;
  state.targets.splice(oldest, 1);
}

/** A report with a blank makes that member unknown: what she told before is not what she tells now. */
function takePlace(target: Target, message: AisMessage, at: number): void {
  // A coarse long-range message must not move a ship that has just told her place to the metre.
  const coarse = (message.resolution ?? 0) > 10;
  if (coarse && target.place && at - target.at < NEIGHBOURS.staleAtRest) return;
  for (const key of ['sog', 'cog', 'heading', 'status', 'resolution'] as const) {
    if (message[key] === undefined) delete target[key];
    else target[key] = message[key];
  }
  if (!message.position) return;
  target.place = message.position;
  target.at = at;
  const rests = (message.sog ?? Number.POSITIVE_INFINITY) < NEIGHBOURS.restSpeed;
  if (!rests) delete target.restSince;
  else target.restSince ??= at;
  const last = target.places.at(-1);
  if (!last || at - last.at >= NEIGHBOURS.placeEvery) {
    target.places.push({ at, ...message.position });
    if (target.places.length > NEIGHBOURS.placesKept) target.places.shift();
  }
}
