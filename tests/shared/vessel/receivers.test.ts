import { expect, test } from 'vitest';
import {
  hdopOf,
  hearAccuracy,
  noteNoPosition,
  type Receiver,
  receiverOf,
  statedSigma,
} from '../../../shared/vessel/receivers.ts';
import { say } from './help.ts';

const GP = { input: 'a', talker: 'GP' };

test('what a receiver says of its accuracy holds ten seconds', () => {
  const receivers: Receiver[] = [];
  hearAccuracy(receivers, say('GPGSA'), 'a', { kind: 'dilution', hdop: 1.2 }, 100);
  hearAccuracy(receivers, say('GPGST'), 'a', { kind: 'accuracy', latSigma: 3, lonSigma: 4 }, 100);
  const receiver = receiverOf(receivers, GP);
  expect(hdopOf(receiver, 110)).toBe(1.2);
  expect(hdopOf(receiver, 111)).toBeUndefined();
  expect(statedSigma(receiver, 110)).toBeCloseTo(5 / Math.SQRT2, 9);
  expect(statedSigma(receiver, 111)).toBeUndefined();
});

test('one axis is better than none; a blank HDOP keeps the last one', () => {
  const receivers: Receiver[] = [];
  hearAccuracy(receivers, say('GPGST'), 'a', { kind: 'accuracy', lonSigma: 4 }, 100);
  hearAccuracy(receivers, say('GPGSA'), 'a', { kind: 'dilution', hdop: 2 }, 100);
  hearAccuracy(receivers, say('GPGSA'), 'a', { kind: 'dilution', dimensions: 3 }, 105);
  expect(statedSigma(receiverOf(receivers, GP), 100)).toBe(4);
  expect(hdopOf(receiverOf(receivers, GP), 108)).toBe(2);
  expect(hdopOf(receiverOf(receivers, GP), 112)).toBeUndefined();
  expect(receiverOf(receivers, { input: 'b', talker: 'GP' })).toBeUndefined();
});

test('a note on the same receiver comes once an hour', () => {
  const receivers: Receiver[] = [];
  const noted = (at: number) => noteNoPosition(receivers, say('GPRMC'), 'a', 'no-fix', at) !== undefined;
  expect([0, 1, 3599, 3600, 3601].map(noted)).toEqual([true, false, false, true, false]);
});

test('invented talkers do not grow the list without end', () => {
  const receivers: Receiver[] = [];
  for (let i = 0; i < 500; i++)
    hearAccuracy(
      receivers,
      say(`${(i + 1000).toString(36).slice(-2)}GSA`),
      'a',
      { kind: 'dilution', hdop: 1 },
      i,
    );
  expect(receivers.length).toBeLessThan(20);
});
