import { STATUS_CODES } from 'node:http';
import type { Duplex } from 'node:stream';
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';
import type { Counters } from './counters.ts';
import { PROBLEM_JSON, Problem, type ProblemKind } from './problem.ts';

/** What fastify's own errors mean to whoever asked. */
const KNOWN: Record<string, { kind: ProblemKind; detail: string }> = {
  FST_ERR_CTP_INVALID_MEDIA_TYPE: {
    kind: 'wrong-media-type',
    detail: 'Send the body as content-type application/json.',
  },
  FST_ERR_CTP_BODY_TOO_LARGE: { kind: 'too-long', detail: 'A body may have 64 KiB.' },
  FST_ERR_BAD_URL: {
    kind: 'bad-url',
    detail: 'The path has a % that is not followed by two hexadecimal digits.',
  },
  FST_ERR_MAX_PARAM_LENGTH: { kind: 'bad-url', detail: 'A part of the path is longer than 100 characters.' },
};

/** Any error as the problem it is; what is not known is hawse's own fault and gives nothing away. */
export function asProblem(error: unknown): Problem {
  if (error instanceof Problem) return error;
  const { code, statusCode, message } = error as Partial<FastifyError>;
  const known = code === undefined ? undefined : KNOWN[code];
  if (known) return new Problem(known.kind, known.detail);
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500)
    return new Problem('not-valid', message ?? 'The request cannot be read.');
  return new Problem(
    'own-error',
    'See the log of the daemon. The watch goes on if the alerts say nothing else.',
  );
}

export type Refuse = (error: unknown, request: FastifyRequest, reply: FastifyReply) => void;

/** Answers with the problem, counts it, and logs what is hawse's own fault. */
export function createRefuse(counters: Counters, log: Logger): Refuse {
  return function refuse(error, request, reply) {
    const problem = asProblem(error);
    counters.refused.inc({ reason: problem.kind });
    if (problem.kind === 'own-error') {
      log.error({ err: error, method: request.method, url: request.url }, 'a request met an error of hawse');
    }
    if (problem.status === 401) reply.header('www-authenticate', 'Bearer realm="hawse"');
    void reply.code(problem.status).type(PROBLEM_JSON).send(JSON.stringify(problem.details()));
  };
}

/** Answers with the problem on a bare connection, before or beside fastify, and ends it. */
export function refuseRaw(socket: Duplex, problem: Problem, counters: Counters): void {
  counters.refused.inc({ reason: problem.kind });
  if (!socket.writable) {
    socket.destroy();
    return;
  }
  const body = JSON.stringify(problem.details());
  socket.on('error', () => socket.destroy());
  socket.end(
    `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}\r\nContent-Type: ${PROBLEM_JSON}\r\nContent-Length: ${Buffer.byteLength(body)}\r\nConnection: close\r\n\r\n${body}`,
  );
}
