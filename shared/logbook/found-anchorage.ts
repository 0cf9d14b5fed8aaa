import type { Command } from '../commands.ts';
import { distanceBearing } from '../earth/geodesic.ts';
import { createEngine, step } from '../engine.ts';
import type { Input } from '../input.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { Settings } from '../settings.ts';
import { fromTrack } from '../watch/from-track.ts';

/** An anchorage within a recording: when she lay there, and the order that sets its mark. */
export interface FoundAnchorage {
  from: number;
  to: number;
  command: Extract<Command, { do: 'mark' }>;
  /** What a reader should know of how it was found. */
  words: string[];
}

type Mark = LatLon & { sigma: number };

/** Where she went, and the best mark that her track has told so far. */
export interface Way {
  take(input: Input): void;
  points(): readonly (LatLon & { at: number })[];
  best(): { at: number; mark: Mark } | { why: string };
}

/** The track is asked for a mark every so many seconds of the recording: she may have come and gone within it. */
const ASKED_EVERY = 900;
/** A point of her way each so many seconds. */
const POINT_EVERY = 5;
/** She lies to this anchor within so many lengths of cable, and is gone when she was beyond for so many seconds. */
const LENGTHS = 1.5;
const GONE_FOR = 120;

export function wayOf(settings: Settings): Way {
  let engine = createEngine(settings);
  const points: (LatLon & { at: number })[] = [];
  let askAt: number | undefined;
  let best: { at: number; mark: Mark } | undefined;
  let why = 'there is no position in it.';
  const ask = () => {
    const last = engine.watch.track.at(-1);
    if (!last) return;
    const placed = fromTrack(engine.watch.track, settings.cable.veered, settings);
    if (!placed.ok) why = placed.why;
    else if (!best || placed.sigma < best.mark.sigma) {
      const { lat, lon, sigma } = placed;
      best = { at: last.at, mark: { lat, lon, sigma } };
    }
  };
  return {
    take(input) {
      engine = step(engine, input).state;
      const point = engine.watch.track.at(-1);
      if (point && point.at >= (points.at(-1)?.at ?? Number.NEGATIVE_INFINITY) + POINT_EVERY)
        points.push({ at: point.at, lat: point.lat, lon: point.lon });
      askAt ??= input.at + ASKED_EVERY;
      if (input.at < askAt) return;
      askAt = input.at + ASKED_EVERY;
      ask();
    },
    points: () => points,
    best() {
      ask();
      return best ?? { why };
    },
  };
}

/** The stay at the best mark: from when she came within reach of it until she was gone for good. */
export function findAnchorage(way: Way, settings: Settings): FoundAnchorage | { why: string } {
  const best = way.best();
  if ('why' in best) return best;
  const { mark, at } = best;
  const reach = LENGTHS * (settings.cable.veered ?? 0) + settings.boat.length;
  const points = way.points();
  const inside = points.map((point) => distanceBearing(point, mark).distance <= reach);
  let index = points.findLastIndex((point) => point.at <= at);
  while (index > 0 && !inside[index]) index--;
  let [first, last] = [index, index];
  for (let i = index; i >= 0 && points[first]!.at - points[i]!.at <= GONE_FOR; i--) if (inside[i]) first = i;
  for (let i = index; i < points.length && points[i]!.at - points[last]!.at <= GONE_FOR; i++)
    if (inside[i]) last = i;
  return {
    from: points[first]!.at,
    to: points[last]!.at,
    command: { do: 'mark', how: mark },
    words: [`The mark was found from the track, uncertain by ${mark.sigma.toFixed(1)} m; nobody logged it.`],
  };
}
