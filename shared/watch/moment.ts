import type { Finding } from '../alerts/alert.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import type { WatchState } from './state.ts';

/** What a condition looks at. It is asked at every fix, at every whole second and after every order. */
export interface Moment {
  /** A mark is set: the watch is on. */
  state: WatchState & { since: number };
  settings: Settings;
  vessel: VesselView;
  /** UNIX seconds. */
  at: number;
  /** True once for each whole second. */
  newSecond: boolean;
}

/** One thing that the watch looks out for: what it finds at this moment, or undefined while all is well. */
export type Condition = (moment: Moment) => Finding | undefined;
