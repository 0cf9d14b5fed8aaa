import type { LatLon } from '../quantities/estimate.ts';

/** What of our own boat neighbours are judged against: SI, directions true; absent is unknown. */
export interface Own {
  at: number;
  roller?: LatLon;
  heading?: number;
  length: number;
  beam: number;
  /** Where our anchor lies, and its sigma per axis. */
  anchor?: LatLon;
  anchorSigma?: number;
  /** Our roller from it in this wind. */
  reach?: number;
  depth?: number;
  /** The way vessels at anchor lie now: from their roller to their anchor. */
  lie?: number;
  windSpeed?: number;
  /** The anchor is being weighed. */
  weighing?: boolean;
}
