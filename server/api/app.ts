import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, {
  type FastifyBaseLogger,
  type FastifyInstance,
  LogController,
  type RawReplyDefaultExpression,
  type RawRequestDefaultExpression,
  type RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Logger } from 'pino';
import type { z } from 'zod';
import { isThisComputer } from './access.ts';
import { guard } from './connections.ts';
import type { Counters } from './counters.ts';
import { createRefuse, refuseRaw } from './errors.ts';
import { faultsOf, inWords } from './faults.ts';
import type { HostCheck } from './hosts.ts';
import { Problem } from './problem.ts';

export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

const BODY_LIMIT = 64 * 1024;
export const REQUEST_MS = 30_000;
export const SILENCE_MS = 300_000;
/** A page asks a few times a minute; a script that asks more often than this is broken. This computer itself is not limited. */
const REQUESTS_A_MINUTE = 1200;
const IN: Record<string, 'body' | 'query' | 'path' | 'header'> = {
  body: 'body',
  querystring: 'query',
  params: 'path',
  headers: 'header',
};

export interface AppPorts {
  checkHost: HostCheck;
  counters: Counters;
  log: Logger;
}

/** The web server without its routes: what holds for every request. */
export async function createApp({ checkHost, counters, log }: AppPorts): Promise<App> {
  const refuse = createRefuse(counters, log);
  const app: App = Fastify({
    loggerInstance: log as FastifyBaseLogger,
    logController: new LogController({ disableRequestLogging: true }),
    bodyLimit: BODY_LIMIT,
    requestTimeout: REQUEST_MS,
    // Of silence either way, longer than any answer takes to make: one that nobody takes is not kept for ever. Live sockets have
    // limits of their own.
    connectionTimeout: SILENCE_MS,
    forceCloseConnections: true,
    routerOptions: { maxParamLength: 100 },
    frameworkErrors: (error, request, reply) => refuse(error, request, reply as never),
    clientErrorHandler: (_error, socket) =>
      refuseRaw(socket, new Problem('bad-http', 'The request cannot be read as HTTP/1.1.'), counters),
  }).withTypeProvider<ZodTypeProvider>();
  guard(app.server, counters, (request, response) => app.routing(request, response));

  app.setErrorHandler(refuse);
  app.setValidatorCompiler<z.ZodType>(({ schema, httpPart }) => (data) => {
    const checked = schema.safeParse(data);
    if (checked.success) return { value: checked.data };
    const errors = faultsOf(IN[httpPart ?? 'body'] ?? 'body', checked.error.issues);
    return { error: new Problem('not-valid', inWords(errors), { errors }) };
  });
  // The schemas of answers are for the documentation: an answer that is not quite as documented is better than none at night.
  app.setSerializerCompiler(() => JSON.stringify);

  app.removeAllContentTypeParsers();
  const parse = app.getDefaultJsonParser('error', 'error');
  app.addContentTypeParser('application/json', { parseAs: 'string' }, (request, body: string, done) => {
    if (body === '') return done(null, undefined);
    return parse(request, body, (error, value) =>
      done(
        error ? new Problem('not-json', `The body cannot be read as JSON: ${error.message}`) : null,
        value,
      ),
    );
  });

  app.addHook('onRequest', async (request) => checkHost(request.headers));
  app.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url ?? 'none';
    counters.requests.inc({ method: request.method, route, status: reply.statusCode });
  });
  await app.register(helmet, HEADERS);
  await app.register(rateLimit, {
    max: REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    allowList: (request) => isThisComputer(request.raw),
    errorResponseBuilder: (_request, { after }) =>
      new Problem('too-many', `At most ${REQUESTS_A_MINUTE} requests a minute. Try again in ${after}.`),
  });
  app.setNotFoundHandler({ preHandler: app.rateLimit() }, (request) => {
    throw new Problem(
      'no-such-call',
      `${request.method} ${request.url.slice(0, 100)} is no call of hawse; /api/v1/openapi.json lists them.`,
    );
  });
  return app;
}

/** Pages take everything from the boat and nothing from elsewhere. Plain http is the rule aboard, so nothing may demand https. */
const HEADERS = {
  contentSecurityPolicy: {
    useDefaults: false,
    directives: {
      defaultSrc: ["'self'"],
      styleSrc: ["'self'"],
      // Safari before 15.4 does not count the socket as 'self'.
      connectSrc: ["'self'", 'ws:', 'wss:'],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
  },
  strictTransportSecurity: false,
  crossOriginOpenerPolicy: false,
  originAgentCluster: false,
};
