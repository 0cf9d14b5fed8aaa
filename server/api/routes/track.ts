import { trackAnswer, trackQuery } from '../../../shared/messages.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';

export function addTrack(app: App, desk: Desk): void {
  const schema = {
    summary: 'The swept track, oldest first',
    querystring: trackQuery,
    response: answers(trackAnswer),
  };
  app.get('/track', { schema }, ({ query: { from, to, step } }) => ({
    track: thin(desk.track(from, to), step ?? 0),
  }));
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
