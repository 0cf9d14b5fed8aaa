import type { AlertKind, AlertState, Priority } from '../alerts/alert.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { Boat, Cable, Limits } from '../settings.ts';
import type { CableState, Mark } from '../watch/view.ts';

/**
 * A night: one anchorage from mark to aweigh, whatever the hour. SI units, degrees true, UNIX seconds; what is not known is left out.
 * Nothing here is smoothed: maxima are of single readings, and what was missing is told as a gap.
 */
export interface NightSummary {
  /** Sortable by time: day and minute of the mark in UTC, and a number that tells nights of one minute apart: 2026-11-25T2010-1. */
  id: string;
  /** `watch`: this hawse kept the watch; `import`: a recording made elsewhere. */
  origin: 'watch' | 'import';
  /** Name of the simulated anchorage, when it was one. */
  simulated?: string;
  /** Name of the place, told by people here or at an earlier night near it. */
  place?: string;
  /** What people have written about this night. */
  notes?: string;
  from: number;
  /** When the anchor was aweigh; absent: still at anchor. */
  to?: number;
  /** How far this record goes, UNIX seconds. */
  upTo: number;
  boat: string;
  /** The mark as it was last set, and how often it was set. */
  mark: Mark;
  marks: number;
  veered?: Range;
  /** Depth below the surface, or below the transducer when its place is not known. */
  depth?: Range;
  /** The strongest wind over ground of a single reading. */
  windMost?: { at: number; speed: number; from: number };
  streamMost?: { at: number; drift: number; set: number };
  /** The roller farthest from the mark as it stood then, and bearing from the mark; fixes that were doubtful are not counted. */
  farthest?: { at: number; distance: number; bearing?: number };
  /** The largest displacement of the anchor that the drag watch thought at least as likely as not. */
  movedMost?: { at: number; moved: number; sigma: number; probability: number };
  /**
   * Worst pull on the cable, N, in the wind of a single reading; `part` of the working load, when that is known. `steady`: the worst in
   * the mean wind, as the watch tells it. What sheering and seas add is in neither.
   */
  load?: {
    at: number;
    worst: number;
    workingLoad?: number;
    part?: number;
    steady?: { at: number; value: number; sigma: number };
  };
  alerts: {
    alarms: number;
    warnings: number;
    cautions: number;
    /** How often each kind was raised. */
    kinds: Partial<Record<AlertKind, number>>;
  };
  /** What was missing, in seconds altogether, by what it was. */
  gaps: { count: number; seconds: Partial<Record<GapKind, number>> };
  sentences: number;
  rejected: { checksum: number; malformed: number; unknown: number };
  /** Versions of hawse that kept this record. */
  versions: string[];
  /** Made anew from the recorded sentences, and whether from the very state that the watch began with (else from shortly before). */
  rebuilt?: { exact: boolean };
  /** Words on what is doubtful about this record. */
  doubts?: string[];
}

export interface Range {
  least: number;
  most: number;
}

/**
 * `silence`: no sentence of any input; `position`: none, or too old; `doubtful`: fixes came that could not be trusted, `why` says what was
 * wrong with them; the others: none after there had been some that night.
 */
export type GapKind = 'silence' | 'position' | 'doubtful' | 'heading' | 'wind' | 'depth';

export interface Gap {
  kind: GapKind;
  from: number;
  /** Absent: it goes on. */
  to?: number;
  why?: string;
}

/** One alert through the night, with everything that became of it. */
export interface NightAlert {
  id: string;
  kind: AlertKind;
  priority: Priority;
  /** Its last words. */
  text: string;
  value?: number;
  limit?: number;
  /** First and last change of state that night; `to` absent: it had not become normal. */
  from: number;
  to?: number;
  acknowledgedBy?: string;
  acknowledgedAt?: number;
  changes: { at: number; state: AlertState; priority: Priority; text: string; by?: string }[];
}

/** What was in force when the watch began; later changes stand in the story. */
export interface NightSettings {
  boat: Boat;
  cable: Cable;
  limits: Limits;
  circle?: { radius: number; computed: boolean; explanation: string };
  veered?: number;
}

/** Something that happened beside alerts: the mark was set or closed, words of the watch, signals, stays while weighing. */
export interface StoryLine {
  at: number;
  kind: 'mark' | 'aweigh' | 'note' | 'signal' | 'weigh';
  by?: string;
  text: string;
}

/**
 * How she lay at `at`. Extremes are those of single readings since the sample before. A member that is absent was unknown then;
 * time without samples is time without sentences.
 */
export interface Sample extends Partial<LatLon> {
  at: number;
  /** Roller to mark. */
  distance?: number;
  distanceMost?: number;
  bearing?: number;
  heading?: number;
  depth?: number;
  depthLeast?: number;
  windSpeed?: number;
  windMost?: number;
  windFrom?: number;
  drift?: number;
  set?: number;
  reach?: number;
  cable?: CableState;
  /** Displacement of the anchor from its mark, its direction, its sigma, and how likely it is that she drags. */
  moved?: number;
  movedBearing?: number;
  sigma?: number;
  probability?: number;
  veered?: number;
  /** Radius of the circle in force. */
  circle?: number;
  load?: number;
  phase?: 'watching' | 'weighing';
  /** Fixes came that could not be trusted. */
  doubtful?: true;
}

/** SHA-256 of the recorded sentences of the night in one segment of the journal, as `GET /nights/:id/sentences` gives them. */
export interface Checksum {
  segment: string;
  from: number;
  to: number;
  lines: number;
  bytes: number;
  sha256: string;
}

export interface Night {
  summary: NightSummary;
  alerts: NightAlert[];
  story: StoryLine[];
  /** Seconds between samples. */
  step: number;
  strips: Sample[];
  settings: NightSettings;
  gaps: Gap[];
  /** Empty while at anchor, and until they have been reckoned shortly after. */
  checksums: Checksum[];
}

/** An anchorage that has been lain in before: nights within a third of a mile. */
export interface Place extends LatLon {
  name?: string;
  /** From where was asked, metres and degrees true. */
  distance: number;
  bearing: number;
  /** Newest first. */
  nights: PlaceNight[];
  depth?: Range;
  windMost?: number;
}

/** An earlier night there: what a crew that comes back wants to know. */
export interface PlaceNight {
  id: string;
  from: number;
  to?: number;
  mark: LatLon & { sigma: number };
  veered?: number;
  depth?: Range;
  windMost?: number;
  farthest?: number;
  /** Alarms raised, and whether she dragged. */
  alarms: number;
  dragged: boolean;
  notes?: string;
}
