import type { AlertKind } from '../../shared/alerts/alert.ts';

/**
 * What an alert is called on the bus. `number`: the ALR alarm number, and with 10000 added the ALF identifier, since makers' own
 * alerts have identifiers from 10000 up (IEC 62923-2 [M]); never to be changed, since displays are set up by it. `title`: the first
 * sentence of ALF has room for 16 characters (IEC 61162-1 [M]).
 */
export const ON_THE_BUS: Readonly<Record<AlertKind, { number: number; title: string }>> = {
  drag: { number: 1, title: 'ANCHOR DRAGS' },
  'outside-circle': { number: 2, title: 'OUTSIDE CIRCLE' },
  'outside-sector': { number: 3, title: 'OUTSIDE SECTOR' },
  shoal: { number: 4, title: 'SHOAL WATER' },
  deep: { number: 5, title: 'DEEP WATER' },
  'low-water': { number: 6, title: 'LOW WATER' },
  'wind-speed': { number: 7, title: 'STRONG WIND' },
  'wind-shift': { number: 8, title: 'WIND SHIFT' },
  'position-lost': { number: 9, title: 'POSITION LOST' },
  'position-doubtful': { number: 10, title: 'POSITION DOUBT' },
  'heading-lost': { number: 11, title: 'HEADING LOST' },
  'wind-lost': { number: 12, title: 'WIND LOST' },
  'depth-lost': { number: 13, title: 'DEPTH LOST' },
  'vessel-near': { number: 14, title: 'VESSEL NEAR' },
  'lead-foul': { number: 15, title: 'CABLE LEADS FOUL' },
  'cable-taut': { number: 16, title: 'CABLE TAUT' },
  overrun: { number: 17, title: 'ANCHOR OVERRUN' },
  adrift: { number: 18, title: 'ADRIFT' },
  disk: { number: 19, title: 'LOG FAILS' },
  clock: { number: 20, title: 'CLOCK' },
  daemon: { number: 21, title: 'ANCHOR WATCH' },
};

/** The test of the horn, beyond all alerts. */
export const TEST = { number: 99, title: 'TEST OF HORN' };

const FIRST_OF_MAKERS = 10_000;
/** Longest number of an instance (IEC 61162-1: 1 to 999999 [M]). */
const INSTANCES = 999_999;

export const identifier = (number: number): number => FIRST_OF_MAKERS + number;

/** Instance of an alert on the bus: the running number that its id ends in, e.g. 3 of "outside-circle.3". */
export function instanceOf(id: string): number {
  const number = Number(/\.(\d+)$/.exec(id)?.[1] ?? 0);
  return ((Math.max(1, number) - 1) % INSTANCES) + 1;
}
