import type { Sentence } from '../sentences/decoded.ts';
import type { PositionObservation, TimeObservation } from '../sentences/observation.ts';
import type { Settings } from '../settings.ts';
import { fresh, take } from './channel.ts';
import { isSounded } from './depth.ts';
import { advance, type Freshness, isFrozen, moves, remember } from './epochs.ts';
import { LIMITS } from './limits.ts';
import { motionNow } from './look.ts';
import { type Fix, takeFix } from './position.ts';
import { rankOf } from './ranks.ts';
import { hdopOf, hearAccuracy, noteClockBack, noteNoPosition, receiverOf } from './receivers.ts';
import type { VesselState } from './state.ts';
import { clockOffset, hearTime } from './time.ts';
import { keepModel } from './variation.ts';
import { isWhole } from './wind.ts';

/** What a sentence brought: a new fix of the boat or not, and changes of source in plain words. */
export interface Heard {
  fix: boolean;
  notes: string[];
}

const NO_NOTES: string[] = Object.freeze([]) as unknown as string[];
const NOTHING: Heard = Object.freeze({ fix: false, notes: NO_NOTES });
const FIX: Heard = Object.freeze({ fix: true, notes: NO_NOTES });

/** A source that lacks half of what its channel is for stands behind all others. */
const LACKING = 10;

/**
 * Takes everything that one decoded sentence says. `at` is when it came (UNIX seconds on the engine's timeline), `input` the id of
 * the input. `fix` is true when the serving position source has brought a fix that is new: with a UTC that has advanced. What
 * is blank refreshes nothing; what hawse doesn't use (theoretical wind, rate of turn, distance, satellites in view) is let go by.
 */
export function hear(
  state: VesselState,
  settings: Settings,
  sentence: Sentence,
  at: number,
  input: string,
): Heard {
  const { observations, id } = sentence;
  let time: TimeObservation | undefined;
  let position: PositionObservation | undefined;
  let freshness: Freshness | undefined;
  let note: string | undefined;
  let hasTrueHeading = false;
  for (let i = 0; i < observations.length; i++) {
    const said = observations[i]!;
    switch (said.kind) {
      case 'time':
        time = said;
        freshness = advance(state.position.epochs, sentence, input, said.timeOfDay, at);
        break;
      case 'position':
        position = said;
        freshness ??=
          said.timeOfDay === undefined
            ? moves(state.position.epochs, sentence, input, said, at)
            : advance(state.position.epochs, sentence, input, said.timeOfDay, at);
        break;
      case 'no-position':
        time = undefined;
        note = noteNoPosition(state.receivers, sentence, input, said.reason, at);
        break;
      case 'accuracy':
      case 'dilution':
        hearAccuracy(state.receivers, sentence, input, said, at);
        break;
      case 'motion':
        if (freshness ? freshness === 'repeated' : isFrozen(state.position.epochs, sentence, input, at))
          break;
        take(
          state.motion,
          sentence,
          input,
          rankOf('motion', id) + (said.sog === undefined ? LACKING : 0),
          said,
          at,
        );
        break;
      case 'ground-speed':
        if (said.athwart !== undefined) take(state.motion, sentence, input, rankOf('motion', id), said, at);
        break;
      case 'heading':
        hasTrueHeading = true;
        take(state.heading, sentence, input, rankOf('heading', id), said, at);
        break;
      case 'heading-magnetic':
        if (!hasTrueHeading) take(state.heading, sentence, input, rankOf('heading', id), said, at);
        break;
      case 'variation':
        if (freshness !== 'repeated')
          take(state.variation.channel, sentence, input, rankOf('variation', id), said.variation, at);
        break;
      case 'wind-apparent':
        take(state.windApparent, sentence, input, rankOf('wind', id), said, at);
        break;
      case 'wind-ground':
        if (isWhole(said)) take(state.windGround, sentence, input, rankOf('windGround', id), said, at);
        break;
      case 'depth':
        if (isSounded(said)) take(state.depth, sentence, input, rankOf('depth', id), said, at);
        break;
      case 'water-speed':
        take(state.waterSpeed, sentence, input, rankOf('waterSpeed', id), said, at);
        break;
      case 'stream':
        take(state.stream, sentence, input, rankOf('stream', id), said, at);
        break;
      case 'water-temperature':
        take(state.waterTemperature, sentence, input, rankOf('waterTemperature', id), said, at);
        break;
    }
  }
  if (position && freshness === 'repeated') remember(state.position.epochs, sentence, input, position, at);
  if (freshness === undefined || freshness === 'repeated')
    return note === undefined ? NOTHING : { fix: false, notes: [note] };
  if (freshness === 'back-stepped') note ??= noteClockBack(state.receivers, sentence, input, at);
  if (time && tellsTime(state, sentence, input, at)) hearTime(state.time, time, at);
  const fix = position !== undefined && takePosition(state, settings, sentence, input, position, at);
  if (note !== undefined) return { fix, notes: [note] };
  return fix ? FIX : NOTHING;
}

/** The receiver that gives the position gives the time as well; any other only while there is none. */
function tellsTime(state: VesselState, sentence: Sentence, input: string, at: number): boolean {
  const receiver = fresh(state.position.channel, at, LIMITS.position);
  return receiver === undefined || (receiver.talker === sentence.talker && receiver.input === input);
}

function takePosition(
  state: VesselState,
  settings: Settings,
  sentence: Sentence,
  input: string,
  said: PositionObservation,
  at: number,
): boolean {
  const motion = motionNow(state, settings, at);
  const fix: Fix = { ...said };
  if (motion?.sog !== undefined) fix.sog = motion.sog;
  if (motion?.cog !== undefined) fix.cog = motion.cog;
  const hdop = hdopOf(receiverOf(state.receivers, { input, talker: sentence.talker }), at);
  const isNew = takeFix(state.position, sentence, input, fix, hdop, at);
  if (isNew) keepModel(state.variation, said, at + (clockOffset(state.time, at) ?? 0));
  return isNew;
}
