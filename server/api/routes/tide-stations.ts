import { stationAnswer, stationQuery, stationsAnswer, stationsQuery } from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import type { Desk } from '../desk.ts';
import { answers } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** Stations of an open data set that a tide can be taken from, with the terms it is lent under. */
export function addTideStations(app: App, { stations }: Desk): void {
  const near = {
    summary: 'Tide stations near a place, with licence and attribution',
    querystring: stationsQuery,
    response: answers(stationsAnswer),
  };
  app.get('/tide/stations', { schema: near }, async (request) => {
    const { lat, lon } = request.query;
    return { stations: had(await stations?.near(lat, lon)) };
  });

  const one = {
    summary: 'The tide of one station, ready to be told by PUT /tide',
    querystring: stationQuery,
    response: answers(stationAnswer),
  };
  app.get('/tide/station', { schema: one }, async (request) => ({
    tide: had(await stations?.tide(request.query.id)),
  }));
}

function had<T>(answer: { ok: true; found: T } | { ok: false; why: string } | undefined): T {
  if (answer?.ok) return answer.found;
  throw new Problem('unavailable', answer?.why ?? 'This hawse has no tide stations.');
}
