/**
 * What the foredeck tells the helm while weighing. Words of the trade; two of them carry a number: `lead:3` is the cable
 * growing at three o'clock (the bow is twelve), `out:15` is 15 whole metres of cable still out.
 */
export const SIGNALS = [
  'stop',
  'ahead',
  'neutral',
  'astern',
  'heaving',
  'holding',
  'snubbed',
  'up-and-down',
  'aweigh',
  'foul',
] as const;

export type Clock = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12;
export type Signal = (typeof SIGNALS)[number] | `lead:${Clock}` | `out:${number}`;

export const SIGNAL_PATTERN = new RegExp(
  `^(?:${SIGNALS.join('|')}|lead:(?:[1-9]|1[0-2])|out:(?:0|[1-9]\\d{0,2}))$`,
);

/** The same in words, for whoever sent something else. */
export const SIGNALS_ALLOWED = `${SIGNALS.join(', ')}, lead:1 to lead:12 (clock, the bow is 12), out:0 to out:999 (metres)`;
