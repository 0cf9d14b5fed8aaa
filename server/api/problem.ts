import type { Fault, ProblemDetails } from '../../shared/messages.ts';

/** Every kind of problem that the api answers with. The name is the contract; it is also the label under which it is counted. */
const PROBLEMS = {
  'not-valid': { status: 400, title: 'The request is not valid' },
  'not-json': { status: 400, title: 'The body is not JSON' },
  'bad-url': { status: 400, title: 'The address is malformed' },
  'bad-http': { status: 400, title: 'The request is not HTTP' },
  'key-needed': { status: 401, title: 'A key of this boat is needed' },
  'key-wrong': { status: 401, title: 'That is no key of this boat' },
  'code-wrong': { status: 401, title: 'That code pairs no phone' },
  'role-too-low': { status: 403, title: 'This key does not allow it' },
  'other-site': { status: 403, title: 'Asked by a page of another site' },
  'no-such-call': { status: 404, title: 'There is no such call' },
  unknown: { status: 404, title: 'There is no such thing' },
  refused: { status: 409, title: 'It makes no sense now' },
  unavailable: { status: 409, title: 'What it needs is not known now' },
  'too-long': { status: 413, title: 'The body is too long' },
  'wrong-media-type': { status: 415, title: 'The body must be application/json' },
  'other-host': { status: 421, title: 'Asked under a name that is not the boat’s' },
  'upgrade-needed': { status: 426, title: 'This is a WebSocket' },
  'too-many': { status: 429, title: 'Too many requests' },
  'too-many-keys': { status: 429, title: 'Too many wrong keys or codes' },
  'not-kept': { status: 500, title: 'The disk does not take it' },
  'own-error': { status: 500, title: 'hawse met an error of its own' },
  'not-built': { status: 501, title: 'Not built in this version' },
  'not-healthy': { status: 503, title: 'The watch is not able to see or to remember' },
  'no-pages': { status: 503, title: 'The pages are not built' },
  'too-many-sockets': { status: 503, title: 'Too many pages are open' },
  stopping: { status: 503, title: 'hawse is stopping' },
  'not-shown': { status: 504, title: 'The helm has not seen it' },
} as const satisfies Record<string, { status: number; title: string }>;

export type ProblemKind = keyof typeof PROBLEMS;
type Extras = { errors?: Fault[]; reasons?: string[] };

/** Thrown anywhere while a request is handled; the error handler answers with it. `detail` says what is allowed. */
export class Problem extends Error {
  override name = 'Problem';
  readonly kind: ProblemKind;
  readonly extras: Extras;

  constructor(kind: ProblemKind, detail: string, extras: Extras = {}) {
    super(detail);
    this.kind = kind;
    this.extras = extras;
  }

  get status(): number {
    return PROBLEMS[this.kind].status;
  }

  /** RFC 9457 problem details. */
  details(): ProblemDetails {
    const { status, title } = PROBLEMS[this.kind];
    return { type: `urn:hawse:problem:${this.kind}`, title, status, detail: this.message, ...this.extras };
  }
}

export const PROBLEM_JSON = 'application/problem+json; charset=utf-8';
