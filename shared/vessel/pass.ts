import type { Settings } from '../settings.ts';
import { type Change, type Channel, choose, inWords, type Source } from './channel.ts';
import { compareAtChange, compareReceivers } from './disagreement.ts';
import { LIMITS, VARIATION_LIMIT } from './limits.ts';
import { sigmaOfFix } from './look.ts';
import type { Fix } from './position.ts';
import type { VesselState } from './state.ts';
import { noteWrong } from './variation.ts';
import { createWander } from './wander.ts';

/**
 * Lets one second go by: hands each quantity over from a source that has fallen silent, or to a better one that has been steady,
 * compares the receivers, and returns what changed in plain words. To be called once a second of the engine's timeline.
 */
export function pass(state: VesselState, _settings: Settings, at: number): string[] {
  const notes: string[] = [];
  const settle = <V>(what: string, channel: Channel<V>, limit: number): Change<V> | undefined => {
    const change = choose(channel, at, limit);
    if (change) notes.push(inWords(what, change, at));
    return change;
  };
  const sigma = (source: Source<Fix>): number => sigmaOfFix(state, source, at);
  const change = settle('position', state.position.channel, LIMITS.position);
  if (change) {
    state.position.wander = createWander();
    compareAtChange(state.position, change, sigma, at);
  }
  settle('course and speed', state.motion, LIMITS.motion);
  settle('heading', state.heading, LIMITS.heading);
  settle('wind', state.windApparent, LIMITS.wind);
  settle('ground wind', state.windGround, LIMITS.wind);
  settle('depth', state.depth, LIMITS.depth);
  settle('speed through the water', state.waterSpeed, LIMITS['water-speed']);
  settle('stream', state.stream, LIMITS.stream);
  settle('water temperature', state.waterTemperature, LIMITS['water-temperature']);
  // Who states the variation hardly matters, as it is the same for all: no note.
  choose(state.variation.channel, at, VARIATION_LIMIT);
  const wrong = noteWrong(state.variation);
  if (wrong !== undefined) notes.push(wrong);
  compareReceivers(state.position, sigma, at);
  return notes;
}
