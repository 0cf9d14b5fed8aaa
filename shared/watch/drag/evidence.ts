import { degrees, direction } from '../../quantities/angle.ts';
import { hypot } from '../../quantities/vector.ts';
import { brokenLoose, dragged } from '../words.ts';
import { correct, expected, lying, reference } from './filter.ts';
import { BLOCK, ENVELOPE, EVIDENCE, MODEL, SCATTER } from './model.ts';
import type { Reading } from './reading.ts';
import { gone, offNow } from './receiver.ts';
import type { DragState } from './state.ts';

/**
 * Weighs the reading of one block against the story that the anchor holds. What is constant in that story tells where a held anchor
 * lets her lie; what she lies beyond that must be GNSS error, load, or the anchor. That is told in sigmas of all that is not the anchor.
 * She sheers and surges: it is the farthest few blocks of the last minutes that show where the cable holds her.
 */
export function weighBlock(drag: DragState, reading: Reading, at: number): void {
  const { holds, receiver, recent } = drag;
  const { east, north } = reading;
  recent.push(reading);
  if (recent.length > ENVELOPE.blocks) recent.shift();
  const beyondHeld = (one: Reading) => one.excess - reference(holds, one).excess;
  const farthest = recent
    .map((one) => ({ beyond: beyondHeld(one), one }))
    .sort((a, b) => b.beyond - a.beyond)
    .slice(0, ENVELOPE.farthest);
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const beyond = mean(farthest.map((each) => each.beyond));
  const left = mean(farthest.map(({ one }) => one.left));
  const middle = farthest[farthest.length >> 1]!.one;
  const narrow = Math.sqrt(
    reference(holds, middle).variance +
      MODEL.slowSigma ** 2 * drag.scatter.value * (1 - receiver.seen) +
      receiver.thrown.variance +
      ENVELOPE.sigma ** 2,
  );
  const wide = hypot(narrow, BLOCK.slack * left);
  const taut = (beyond - left) / narrow > beyond / wide;
  const metres = taut ? beyond - left : beyond;
  const sigma = taut ? narrow : wide;
  drag.against = { at, metres, sigma, sigmas: metres / sigma, east, north, reading };
  if (metres / sigma < EVIDENCE.freeze) delete drag.suspectSince;
  else drag.suspectSince ??= recent[0]!.at;
  if (++drag.blocks % ENVELOPE.blocks === 0) {
    scatter(drag, beyond / wide);
    learn(drag, middle);
  }
  if (recent.length >= ENVELOPE.farthest) raiseOrEnd(drag, reading);
}

/** Learns from a held boat how good this receiver is: mean square of what she lies beyond, against what was expected. */
function scatter(drag: DragState, sigmas: number): void {
  const { scatter: now } = drag;
  if (Math.abs(sigmas) > EVIDENCE.freeze) return;
  now.readings = Math.min(now.readings + 1, SCATTER.memory);
  now.square += (sigmas * sigmas - now.square) / now.readings;
  const part = now.readings / (now.readings + SCATTER.prior);
  const found = now.value * now.square;
  const aim = part * found + (1 - part);
  now.value += (Math.min(SCATTER.most, Math.max(SCATTER.least, aim)) - now.value) / 5;
}

/** The cable forbids lying farther, not lying nearer: a reading that falls short says little, one that falls very short nothing. */
function learn({ holds, against, wind }: DragState, reading: Reading): void {
  const now = expected(holds, reading);
  const surprise = reading.excess - now.excess;
  const short = Math.min(0, surprise);
  if (short < -ENVELOPE.short * Math.sqrt(now.variance + ENVELOPE.sigma ** 2)) return;
  const noise = ENVELOPE.sigma ** 2 + (slackness(wind?.speed) * short) ** 2;
  correct(holds, reading, reading.excess, noise, against!.sigmas < EVIDENCE.freeze);
}

/** The lighter the wind, the longer she may lie short of her reach, by stream, eddies or sheer: how little such a reading counts. */
function slackness(wind: number | undefined): number {
  const { fresh, most } = ENVELOPE.slack;
  return Math.min(most, Math.max(1, (fresh / Math.max(0.1, wind ?? 0)) ** 2));
}

function raiseOrEnd(drag: DragState, reading: Reading): void {
  const { alarm, caution } = EVIDENCE;
  const { sigmas, metres, at } = drag.against!;
  const steady = !(drag.receiver.unsteadyUntil !== undefined && at < drag.receiver.unsteadyUntil);
  const times = drag.receiver.last ? 1 : EVIDENCE.blind;
  const beyond = (step: { sigmas: number; metres: number }) =>
    sigmas > times * step.sigmas && metres > step.metres;
  const level = drag.found?.level;
  if (level !== 'alarm' && steady && beyond(alarm)) raise(drag, 'alarm', reading, slowWords(drag, reading));
  else if (level === undefined && steady && beyond(caution))
    raise(drag, 'caution', reading, slowWords(drag, reading));
  else if (level === 'alarm' && sigmas < alarm.ends && !drag.outside) {
    drag.found!.level = 'caution';
    drag.found!.why = slowWords(drag, reading);
  } else if (level === 'caution' && sigmas < caution.ends) delete drag.found;
}

function raise(drag: DragState, level: 'caution' | 'alarm', { at, east, north }: Reading, why: string): void {
  drag.found = { level, since: at, why, east, north };
}

/** The fast path, at each fix: she goes away from a place where a held anchor would keep her, by position and by velocity. */
export function weighFix(drag: DragState, reading: Reading): void {
  const loose = outside(drag, reading);
  if (!loose || drag.found?.level === 'alarm') return;
  const seconds = reading.at - drag.outside!.since;
  raise(
    drag,
    'alarm',
    reading,
    brokenLoose(loose.farther, seconds, loose.speed, reading.distance, drag.wind?.speed),
  );
}

/** Metres farther out than a held anchor allows, and the roller's speed outwards (m/s), once that has lasted long enough; else undefined. */
function outside(drag: DragState, reading: Reading): { farther: number; speed?: number } | undefined {
  const { fast } = EVIDENCE;
  const { holds, receiver } = drag;
  const held = expected(holds, { ...reading, gain: 0 });
  const sigma = Math.sqrt(held.variance + BLOCK.sigma ** 2);
  const farther = reading.excess - reading.left - held.excess;
  const unsteady = receiver.unsteadyUntil !== undefined && reading.at < receiver.unsteadyUntil;
  const off = offNow(receiver);
  const thrown = Math.max(0, off.east * reading.east + off.north * reading.north);
  if (unsteady || farther - thrown < Math.max(fast.metres, fast.sigmas * sigma)) {
    delete drag.outside;
    return undefined;
  }
  drag.outside ??= { since: reading.at, fixes: 0 };
  drag.outside.fixes++;
  const seconds = reading.at - drag.outside.since;
  const sailed = gone(receiver, reading.east, reading.north, fast.window);
  const lately = gone(receiver, reading.east, reading.north, fast.lately);
  const confirmed =
    sailed === undefined || lately === undefined
      ? farther > fast.unconfirmed * fast.metres && seconds >= fast.longer
      : sailed > fast.sailed && lately > fast.speed * fast.lately;
  if (!confirmed || seconds < fast.seconds || drag.outside.fixes < fast.fixes) return undefined;
  return { farther, ...(lately === undefined ? {} : { speed: lately / fast.lately }) };
}

function slowWords(drag: DragState, reading: Reading): string {
  const { metres, sigma, east, north } = drag.against!;
  const held = lying(drag.holds);
  return dragged({
    value: metres,
    sigma,
    towards: direction(degrees(Math.atan2(east, north))),
    minutes: (reading.at - (drag.suspectSince ?? reading.at)) / 60,
    distance: reading.distance - (held.east * reading.east + held.north * reading.north),
    reach: reading.reach,
    wind: drag.wind?.speed,
  });
}
