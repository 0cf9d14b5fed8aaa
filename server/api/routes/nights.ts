import { Readable } from 'node:stream';
import { createGzip } from 'node:zlib';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  type ExportAs,
  exportQuery,
  importAnswer,
  importQuery,
  nightAnswer,
  nightChanged,
  nightParams,
  nightRequest,
  nightsAnswer,
  nightsQuery,
  placesAnswer,
  placesQuery,
} from '../../../shared/messages.ts';
import type { App } from '../app.ts';
import type { Desk, DeskLogbook } from '../desk.ts';
import { answers, COMMAND_SECURITY, PROBLEM_ANSWERS } from '../documentation.ts';
import { Problem } from '../problem.ts';

/** Bytes of a recording that is sent: a night of a busy bus is 60 MB, and a tenth of that packed. */
const IMPORT_LIMIT = 256 * 1024 * 1024;
const TYPES: Record<ExportAs, string> = {
  gpx: 'application/gpx+xml',
  geojson: 'application/geo+json',
  csv: 'text/csv; charset=utf-8',
  nmea: 'text/plain; charset=iso-8859-1',
};

function logbookOf({ logbook }: Desk): DeskLogbook {
  if (logbook) return logbook;
  throw new Problem('unavailable', 'The logbook cannot be read; see the alert that says why.');
}

/** Calls that read the logbook. */
export function addNights(app: App, desk: Desk): void {
  app.get(
    '/nights',
    {
      schema: {
        summary: 'The logbook: nights, newest first',
        querystring: nightsQuery,
        response: answers(nightsAnswer),
      },
    },
    ({ query: { limit, before } }) => logbookOf(desk).list(limit, before),
  );
  app.get(
    '/nights/:id',
    {
      schema: {
        summary: 'A night: facts, alerts, strips, gaps, settings, checksums',
        params: nightParams,
        response: answers(nightAnswer),
      },
    },
    ({ params: { id } }) => logbookOf(desk).open(id),
  );
  const recording = { params: nightParams, response: PROBLEM_ANSWERS };
  app.get(
    '/nights/:id/sentences',
    { schema: { ...recording, summary: 'Recorded sentences of a night, as text' } },
    async (request, reply) => {
      const { id } = request.params;
      const pieces = await logbookOf(desk).sentences(id);
      return send(request, reply, pieces, { type: TYPES.nmea, name: `${id}.nmea`, encoding: 'latin1' });
    },
  );
  app.get(
    '/nights/:id/inputs',
    {
      schema: {
        ...recording,
        summary: 'JSON lines: the state of the engine before the mark, then every input of the night',
      },
    },
    async (request, reply) => {
      const pieces = await logbookOf(desk).inputs(request.params.id);
      return send(request, reply, pieces, { type: 'application/x-ndjson', encoding: 'utf8' });
    },
  );
  app.get(
    '/nights/:id/export',
    {
      schema: {
        ...recording,
        querystring: exportQuery,
        summary: 'A night as GPX 1.1, GeoJSON, CSV or recorded sentences',
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      const { as } = request.query;
      const logbook = logbookOf(desk);
      const pieces = as === 'nmea' ? await logbook.sentences(id) : await logbook.export(id, as);
      const encoding = as === 'nmea' ? 'latin1' : 'utf8';
      return send(request, reply, pieces, { type: TYPES[as], name: `${id}.${as}`, encoding });
    },
  );
  app.get(
    '/nights/:id/report',
    { schema: { ...recording, summary: 'A night as one page of HTML that stands alone and prints' } },
    async (request, reply) => {
      const { id } = request.params;
      const text = await logbookOf(desk).report(id);
      const type = 'text/html; charset=utf-8';
      return send(request, reply, [text], { type, name: `${id}.html`, encoding: 'utf8' });
    },
  );
  app.get(
    '/places',
    {
      schema: {
        summary: 'Where she has lain before: near a point, or near where she is now',
        querystring: placesQuery,
        response: answers(placesAnswer),
      },
    },
    async ({ query: { near, within } }) => {
      const point = near === undefined ? whereSheIs(desk) : pointIn(near);
      return { places: await logbookOf(desk).places(point, within) };
    },
  );
}

function whereSheIs(desk: Desk): { lat: number; lon: number } {
  const { vessel, watch } = desk.state();
  const point = watch.mark ?? vessel.roller?.value;
  if (!point) throw new Problem('unavailable', 'There is no position now: ask with near=LAT,LON.');
  return { lat: point.lat, lon: point.lon };
}

function pointIn(near: string): { lat: number; lon: number } {
  const [lat, lon] = near.split(',').map(Number) as [number, number];
  if (Math.abs(lat) <= 90 && Math.abs(lon) <= 180) return { lat, lon };
  throw new Problem(
    'not-valid',
    'query.near: expected a latitude from -90 to 90 and a longitude from -180 to 180.',
  );
}

/** A stream is packed on its way where the other side can unpack it. */
function send(
  request: FastifyRequest,
  reply: FastifyReply,
  pieces: AsyncIterable<string> | string[],
  { type, name, encoding }: { type: string; name?: string; encoding: 'latin1' | 'utf8' },
): FastifyReply {
  reply.type(type);
  if (name !== undefined) reply.header('content-disposition', `attachment; filename="${name}"`);
  const bytes = Readable.from(encoded(pieces, encoding), { objectMode: false });
  reply.header('vary', 'accept-encoding');
  if (!/\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''))) return reply.send(bytes);
  reply.header('content-encoding', 'gzip');
  const packed = createGzip({ level: 3 });
  bytes.on('error', (error) => packed.destroy(error));
  packed.on('close', () => bytes.destroy());
  return reply.send(bytes.pipe(packed));
}

async function* encoded(
  pieces: AsyncIterable<string> | string[],
  encoding: 'latin1' | 'utf8',
): AsyncGenerator<Buffer> {
  for await (const piece of pieces) yield Buffer.from(piece, encoding);
}

/** Calls that change the logbook. */
export function addNightOrders(app: App, desk: Desk): void {
  app.patch(
    '/nights/:id',
    {
      schema: {
        summary: 'Name the place of a night, or write notes about it',
        security: COMMAND_SECURITY,
        params: nightParams,
        body: nightRequest,
        response: answers(nightChanged),
      },
    },
    async ({ params: { id }, body }) => ({ summary: await logbookOf(desk).say(id, body) }),
  );
  app.register(async (imports: App) => {
    imports.addContentTypeParser(
      ['application/octet-stream', 'application/gzip', 'text/plain'],
      (_request, payload, done) => done(null, payload),
    );
    imports.post(
      '/nights/import',
      {
        bodyLimit: IMPORT_LIMIT,
        schema: {
          summary: 'Make a night of recorded sentences (plain or gzip), sent as the body',
          description: 'Content type application/octet-stream, application/gzip or text/plain.',
          security: COMMAND_SECURITY,
          querystring: importQuery,
          body: z.unknown(),
          response: answers(importAnswer),
        },
      },
      ({ query, body }) => {
        if (!(body instanceof Readable))
          throw new Problem('wrong-media-type', 'Send the recording itself as application/octet-stream.');
        return logbookOf(desk).import(body, query);
      },
    );
  });
}
