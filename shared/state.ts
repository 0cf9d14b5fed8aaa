import type { Alert } from './alerts/alert.ts';
import type { LeeView } from './lee/view.ts';
import type { NeighbourView } from './neighbours/view.ts';
import type { OutputView } from './outputs.ts';
import type { WakeLock } from './phone.ts';
import type { Boat, Cable } from './settings.ts';
import type { SoundingsView } from './soundings/view.ts';
import type { StreamTurnView } from './tidal-stream/view.ts';
import type { TideView } from './tides/view.ts';
import type { VesselView } from './vessel/view.ts';
import type { Mark, WatchView, WorstLoad } from './watch/view.ts';
import type { CheckView } from './weigh/check-view.ts';
import type { WeighView } from './weigh/view.ts';

/** One input as the engine counts it. */
export interface InputView {
  id: string;
  up: boolean;
  detail: string;
  /** Sentences accepted, and pieces refused by reason. */
  sentences: number;
  rejected: { checksum: number; malformed: number; unknown: number };
  /** The last refusal, in words. */
  lastRefusal?: string;
  /** When a good sentence last came, on the engine's timeline. */
  lastAt?: number;
}

/** Everything a page shows: sent whole as a snapshot, then by top-level member as each changes. */
export interface State {
  at: number;
  /** Name of the simulated anchorage; absent on real instruments. */
  simulated?: string;
  /** The state in one plain sentence, as a good watch-keeper would report it. */
  report: string;
  boat: Boat;
  /** As hawse.yaml tells it; what is out now is `watch.veered`. */
  cable: Cable;
  vessel: VesselView;
  watch: WatchView;
  weigh?: WeighView;
  /** The departure check, while there is a mark. */
  check?: CheckView;
  /** The last anchorage, once its mark is closed by "aweigh". */
  left?: LeftView;
  /** Vessels near ours, nearest first. */
  neighbours: NeighbourView[];
  /** As people have told it; absent: nobody has. */
  tide?: TideView;
  /** When the tidal stream turns next; absent without a mark. */
  streamTurn?: StreamTurnView;
  /** Where she goes if the anchor goes now. */
  lee?: LeeView;
  /** The bottom about the mark as she has sounded it. */
  soundings?: SoundingsView;
  alerts: Alert[];
  inputs: InputView[];
  notes: { at: number; text: string }[];
  pages: PageView[];
  /** Ways out for alerts beside the pages; absent: none is configured. */
  outputs?: OutputView[];
}

/** An anchorage that is over: how she lay, and the way out. The points of that way are in the track. */
export interface LeftView {
  at: number;
  by: string;
  mark: Mark;
  since: number;
  /** Farthest from the mark, metres. */
  farthest?: number;
  worstLoad?: WorstLoad;
  /** Until then "aweigh" can be taken back. */
  undoUntil: number;
  /** Metres run and from the mark since; `until`: the track of leaving ended then. */
  leaving: { run: number; distance: number; until?: number };
}

/** A page that is open somewhere, as the daemon knows it from the page's own pulses. */
export interface PageView {
  id: string;
  name: string;
  page: string;
  visible: boolean;
  /** Its audio runs, and the audio's own clock advances. */
  sound: boolean;
  /** A person has armed it: they count on it to wake them. */
  armed: boolean;
  wakeLock: WakeLock;
  /** On charge, and how full, 0..1; absent where the platform does not tell. */
  charging?: boolean;
  battery?: number;
  /** Three of its pulses are missing, or it hears nothing, or its link is closed: it is not watching. */
  silent: boolean;
  /** False: it may only look, not even acknowledge, and does not count as a phone that wakes the crew. */
  mayAnswer: boolean;
  lastAt: number;
}
