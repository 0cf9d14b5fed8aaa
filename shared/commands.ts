import type { AccessChange } from './access.ts';
import type { HandNeighbour } from './neighbours/view.ts';
import type { LatLon } from './quantities/estimate.ts';
import type { Limits } from './settings.ts';
import type { SlackTold } from './tidal-stream/view.ts';
import type { TideTold } from './tides/view.ts';

/** What people ask of the engine. Each is journalled with its time and author. */
export type Command =
  /** Let go here: the mark is the roller now, or where told. */
  | {
      do: 'mark';
      how:
        | { here: true }
        | PlacedMark
        | { bearing: number; distance: number }
        | { fromTrack: true }
        | { setBack: true };
    }
  | { do: 'watch'; change: WatchChange }
  /** Start / stop the weighing monitor. */
  | { do: 'weigh' }
  | { do: 'stop-weighing' }
  /** Anchor off the bottom: closes the mark. */
  | { do: 'aweigh' }
  /** Undo a mistaken "aweigh": the mark and the weighing are as they were. */
  | { do: 'undo-aweigh' }
  /** Mark an apparent wind angle to hold while weighing: the present one, or told; null: none any more. */
  | { do: 'hold-wind'; angle?: number | null }
  | { do: 'signal'; signal: string }
  /** Somebody has been round before weighing: what they tick of the list. Or the crew's own list; null: the common one. */
  | { do: 'departure-check'; ticked: string[] }
  | { do: 'departure-items'; items: string[] | null }
  /** A neighbour that AIS does not show, by range and bearing from our roller; or one told before is gone. */
  /** High and low waters or constituents; null: none any more. */
  | { do: 'tide'; tell: TideTold | null }
  /** Slack waters of a tidal stream table; null: none any more. */
  | { do: 'slacks'; tell: SlackTold[] | null }
  | { do: 'neighbour'; tell: HandNeighbour }
  | { do: 'neighbour'; takeAway: string }
  /** A key was given or taken away: noted, so that it can be read who did so. */
  | { do: 'access'; change: AccessChange }
  | { do: 'acknowledge'; alert: string }
  | { do: 'silence'; alert: string };

/** A mark told by its position; without `sigma` (metres per axis) the watch assumes one. `from` is set when a file told it. */
export interface PlacedMark extends LatLon {
  sigma?: number;
  from?: 'anchorage-file';
}

/** Absent: unchanged; null: back to none or to computed. */
export interface WatchChange {
  veered?: number;
  circleRadius?: number | null;
  limits?: { [K in keyof Limits]?: number | null };
  /** All that hold from now on; empty: none. */
  sectors?: SectorTold[];
}

/** A part of the water that she must not enter: clockwise between two bearings from the mark (degrees true), from so many metres on. */
export interface SectorTold {
  name?: string;
  from: number;
  to: number;
  beyond: number;
}
