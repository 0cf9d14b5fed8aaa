import { describe, expect, test } from 'vitest';
import {
  type Channel,
  choose,
  createChannel,
  fresh,
  inWords,
  serving,
  take,
} from '../../../shared/vessel/channel.ts';
import { silence } from '../../../shared/vessel/limits.ts';
import { say } from './help.ts';

const GOOD = say('GPGGA');
const POOR = say('IIRMC');

/** Feeds a channel one value a second from the sources alive, as the engine would, and tells the changes in words. */
function live(
  seconds: number,
  isGoodAlive: (at: number) => boolean,
  isPoorAlive: (at: number) => boolean,
  rankOfGood: (at: number) => number = () => 0,
): { channel: Channel<number>; changes: string[] } {
  const channel = createChannel<number>();
  const changes: string[] = [];
  for (let at = 0; at < seconds; at++) {
    const change = choose(channel, at, 10);
    if (change) changes.push(`${at}: ${inWords('position', change, at)}`);
    if (isPoorAlive(at)) take(channel, POOR, 'serial1', 1, at, at);
    if (isGoodAlive(at)) take(channel, GOOD, 'udp1', rankOfGood(at), 1000 + at, at);
  }
  return { channel, changes };
}
const always = () => true;
const never = () => false;

describe('who serves a quantity', () => {
  test('the first that is heard, at once', () => {
    const { channel, changes } = live(1, never, always);
    expect(serving(channel)?.key).toBe('serial1:IIRMC');
    expect(changes).toEqual([]);
  });

  test('a better one takes over only after ten steady seconds (and two to be taken seriously)', () => {
    const { channel, changes } = live(30, always, always);
    expect(changes).toEqual(['12: position now from GP GGA on udp1; it is better than II RMC on serial1']);
    expect(serving(channel)?.value).toBe(1029);
  });

  test('a better one that comes and goes never does', () => {
    const { changes } = live(200, (at) => at % 15 < 6, always);
    expect(changes).toEqual([]);
  });

  test('nor one whose quality flutters', () => {
    const { changes } = live(200, always, always, (at) => (at % 8 === 0 ? 2 : 0));
    expect(changes).toEqual([]);
  });

  test('an equally good one never does', () => {
    expect(live(100, always, always, () => 1).changes).toEqual([]);
  });

  test('when the serving one has been silent for five seconds the other takes over', () => {
    const { changes } = live(60, (at) => at < 30, always);
    expect(changes[1]).toBe(
      '35: position now from II RMC on serial1; GP GGA on udp1 has given nothing new for 6 s',
    );
    expect(changes).toHaveLength(2);
  });

  test('it keeps serving, and ages, when there is no other', () => {
    const { channel, changes } = live(60, (at) => at < 30, never);
    expect(changes).toEqual([]);
    expect(fresh(channel, 39, 10)?.value).toBe(1029);
    expect(fresh(channel, 39.5, 10)).toBeUndefined();
  });

  test('when all come back from a silence together, the first of them is not taken for a substitute', () => {
    const isUp = (at: number) => at < 20 || at > 60;
    const channel = createChannel<number>();
    const changes: string[] = [];
    for (let at = 0; at < 90; at++) {
      const change = choose(channel, at, 10);
      if (change) changes.push(inWords('position', change, at));
      if (isUp(at - 1)) take(channel, POOR, 'serial1', 0, at, at);
      if (isUp(at)) take(channel, GOOD, 'udp1', 1, at, at);
    }
    expect(changes).toEqual([]);
  });

  test('two slow sources do not hand over to each other at every silence', () => {
    const { changes } = live(
      300,
      (at) => at % 8 === 0,
      (at) => at % 8 === 4,
      () => 1,
    );
    expect(changes.length).toBeLessThanOrEqual(2);
  });
});

describe('silence', () => {
  test('five seconds, more for a source known to be slow, never beyond the limit of the quantity', () => {
    expect(silence(0, 10)).toBe(5);
    expect(silence(1, 10)).toBe(5);
    expect(silence(2, 10)).toBe(5);
    expect(silence(3, 10)).toBe(7.5);
    expect(silence(30, 10)).toBe(10);
    expect(silence(30, 120)).toBe(75);
  });

  test('a single long gap does not make a source slow', () => {
    const channel = createChannel<number>();
    for (let at = 0; at < 30; at++) take(channel, GOOD, 'a', 0, 0, at);
    take(channel, GOOD, 'a', 0, 0, 600);
    expect(serving(channel)?.interval).toBeLessThan(1.2);
  });
});

test('invented talkers do not grow a channel without end, nor push out the one that serves', () => {
  const channel = createChannel<number>();
  take(channel, GOOD, 'a', 0, 7, 0);
  for (let i = 0; i < 500; i++) take(channel, say(`${(i + 1000).toString(36).slice(-2)}GGA`), 'a', 0, i, i);
  expect(channel.sources.length).toBeLessThan(20);
  expect(serving(channel)).toMatchObject({ key: 'a:GPGGA', value: 7 });
});
