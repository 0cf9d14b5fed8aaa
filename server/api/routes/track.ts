import { trackAnswer, trackQuery } from '../../../shared/messages.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** So much of the logbook is read for one answer: a month of samples is 9 MB. */
const LONGEST = 31 * 86_400;

export function addTrack(app: App, desk: Desk): void {
  const schema = {
    summary:
      'The swept track, oldest first; before what the watch remembers, from the samples of the logbook',
    querystring: trackQuery,
    response: answers(trackAnswer),
  };
  app.get('/track', { schema }, async ({ query: { from, to, step } }) => {
    const live = desk.track(from, to);
    const past = from === undefined ? [] : await earlier(desk, from, to);
    return { track: thin([...past, ...live], step ?? 0) };
  });
}

/** What the watch does not remember any more, or never saw. */
async function earlier(desk: Desk, from: number, to: number | undefined): Promise<TrackPoint[]> {
  const remembered = desk.track()[0]?.at ?? Number.POSITIVE_INFINITY;
  const end = Math.min(to ?? desk.state().at, remembered);
  if (!desk.logbook || from >= end) return [];
  if (end - from > LONGEST)
    throw new Problem('not-valid', 'query.from: of the logbook at most 31 days are told at once.');
  return (await desk.logbook.track(from, end)).filter(({ at }) => at < remembered);
}

/** Of points closer together in time than `step` seconds only the first stays. */
function thin(points: readonly TrackPoint[], step: number): TrackPoint[] {
  let next = Number.NEGATIVE_INFINITY;
  return points.filter(({ at }) => {
    if (at < next) return false;
    next = at + step;
    return true;
  });
}
