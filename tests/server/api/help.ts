import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, expect } from 'vitest';
import { WebSocket } from 'ws';
import { type Access as OpenAccess, openAccess } from '../../../server/access/open.ts';
import type { AccessPolicy } from '../../../server/api/access.ts';
import { type Api, type ApiOptions, createApi } from '../../../server/api/api.ts';
import type { ServerMessage, State } from '../../../shared/messages.ts';
import { problem, serverMessage } from '../../../shared/messages.ts';
import { createFakeDesk, type FakeDesk } from './fakeDesk.ts';

export const KEY = 'aKeyOfAnEarlierHawse';
/** By the clock of the boat's computer. */
export const NOW = 1_760_000_000;
/** An address on the boat's network, which is documentation address space and so nobody's. */
export const PHONE = '192.0.2.23';

const started: Api[] = [];
const folders: string[] = [];
afterEach(async () => {
  await Promise.all(started.splice(0).map((api) => api.close()));
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder for one test. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-api-'));
  folders.push(folder);
  return folder;
}

/** A folder with what a build of the pages leaves. */
export function builtPages(): string {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>hawse</title>');
  writeFileSync(join(folder, 'assets', 'index-a1b2c3.js'), 'export {};');
  writeFileSync(join(folder, 'anchor.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  return folder;
}

type RigOptions = Partial<ApiOptions & AccessPolicy> & {
  listen?: boolean;
  /** Key of an earlier hawse, and a folder that has been there before. */
  key?: string;
  data?: string;
};

export interface Rig {
  api: Api;
  ring: OpenAccess;
  desk: FakeDesk;
  port: number;
  /** Sends one request without a socket; from this computer unless told. */
  ask(method: string, path: string, body?: unknown, more?: Ask): Promise<Reply>;
  /** Opens the live socket of a page. */
  page(query?: string, headers?: Record<string, string>): Promise<Page>;
}

interface Ask {
  from?: string;
  headers?: Record<string, string>;
  /** Sent as it is. */
  raw?: string;
}

export interface Reply {
  status: number;
  type: string;
  headers: Record<string, unknown>;
  text: string;
  // biome-ignore lint/suspicious/noExplicitAny: answers are looked at member by member
  json: any;
}

/** An api with a fake desk, on a free port when `listen` is asked for. */
export async function rig(options: RigOptions = {}): Promise<Rig> {
  const folder = options.data ?? emptyFolder();
  // As an earlier hawse has left it.
  if (options.key !== undefined || !options.data)
    writeFileSync(join(folder, 'key'), `${options.key ?? KEY}\n`);
  const ring = openAccess(folder, { now: () => NOW, note: () => {} });
  const policy = { look: options.look ?? 'anyone', thisComputer: options.thisComputer ?? 'command' } as const;
  const desk = createFakeDesk(() => api?.pages() ?? []);
  let api: Api | undefined;
  const made = await createApi({
    desk,
    access: { ...policy, ...ring },
    names: ['boat.example'],
    webRoot: builtPages(),
    log: pino({ level: 'silent' }),
    ...options,
  });
  api = made;
  started.push(made);
  const { port } = options.listen ? await made.listen(0, '127.0.0.1') : { port: 0 };
  return {
    api: made,
    ring,
    desk,
    port,
    async ask(method, path, body, { from = '127.0.0.1', headers = {}, raw } = {}) {
      const payload = raw ?? (body === undefined ? undefined : JSON.stringify(body));
      const answer = await made.app.inject({
        method: method as 'GET',
        url: path.startsWith('/') ? path : `/api/v1/${path}`,
        remoteAddress: from,
        headers: { ...(payload === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
        ...(payload === undefined ? {} : { payload }),
      });
      const type = String(answer.headers['content-type'] ?? '');
      return {
        status: answer.statusCode,
        type,
        headers: answer.headers,
        text: answer.body,
        json: /json/.test(type) && answer.body !== '' ? JSON.parse(answer.body) : undefined,
      };
    },
    page: (query = '', headers = {}) => openPage(`ws://127.0.0.1:${port}/live?${query}`, headers),
  };
}

/** A page as the api sees it: everything that it is told is checked against the schema. */
export class Page {
  readonly socket: WebSocket;
  readonly told: ServerMessage[] = [];
  readonly texts: string[] = [];
  readonly closed: Promise<{ code: number; reason: string }>;
  private waiting: (() => void)[] = [];

  constructor(socket: WebSocket) {
    this.socket = socket;
    socket.on('message', (data) => {
      this.texts.push(String(data));
      this.told.push(serverMessage.parse(JSON.parse(String(data))));
      for (const wake of this.waiting.splice(0)) wake();
    });
    socket.on('error', () => {});
    this.closed = new Promise((resolve) =>
      socket.on('close', (code, reason) => resolve({ code, reason: String(reason) })),
    );
  }

  /** The first message that fits, told already or to come. */
  async hears<M extends ServerMessage>(fits: (message: ServerMessage) => message is M): Promise<M>;
  async hears(fits: (message: ServerMessage) => boolean): Promise<ServerMessage>;
  async hears(fits: (message: ServerMessage) => boolean): Promise<ServerMessage> {
    for (let seen = 0; ; ) {
      for (; seen < this.told.length; seen++) if (fits(this.told[seen]!)) return this.told[seen]!;
      await new Promise<void>((resolve) => this.waiting.push(resolve));
    }
  }

  says(message: unknown): void {
    this.socket.send(typeof message === 'string' ? message : JSON.stringify(message));
  }

  /** The daemon has read everything that was sent so far, or has closed the socket. */
  async read(): Promise<void> {
    if (this.socket.readyState !== this.socket.OPEN) return;
    const answered = new Promise((resolve) => this.socket.once('pong', resolve));
    this.socket.ping();
    await Promise.race([answered, this.closed]);
  }

  async leaves(): Promise<void> {
    this.socket.close();
    await this.closed;
  }
}

type Of<T extends ServerMessage['type']> = Extract<ServerMessage, { type: T }>;
export const isA =
  <T extends ServerMessage['type']>(type: T) =>
  (message: ServerMessage): message is Of<T> =>
    message.type === type;

/** Rejects with the HTTP answer when the socket is refused. */
export async function openPage(url: string, headers: Record<string, string> = {}): Promise<Page> {
  const socket = new WebSocket(url, { headers });
  const page = new Page(socket);
  await new Promise<void>((resolve, reject) => {
    socket.once('open', () => resolve());
    socket.once('unexpected-response', (_request, answer) => {
      let body = '';
      answer.on('data', (chunk) => {
        body += chunk;
      });
      answer.on('end', () => reject(new Refusal(answer.statusCode ?? 0, JSON.parse(body))));
    });
    socket.once('error', reject);
  });
  return page;
}

export class Refusal extends Error {
  readonly status: number;
  readonly problem: { type: string; detail: string };
  constructor(status: number, problem: { type: string; detail: string }) {
    super(problem.detail);
    this.status = status;
    this.problem = problem;
  }
}

/** The count of one line of the metrics, 0 when it is not there. */
export async function counted({ ask }: Rig, line: string): Promise<number> {
  const { text } = await ask('GET', 'metrics');
  const found = text.split('\n').find((metric) => metric.startsWith(`${line} `));
  return found === undefined ? 0 : Number(found.slice(line.length + 1));
}

/** Every refusal is problem details: of that kind, with words. */
export function expectProblem(reply: Reply, status: number, kind: string, words: RegExp = /./): void {
  expect(reply.type).toMatch(/^application\/problem\+json/);
  const details = problem.strict().parse(reply.json);
  expect(details).toMatchObject({ status, type: `urn:hawse:problem:${kind}` });
  expect(details.detail).toMatch(words);
  expect(reply.status).toBe(status);
}

/** Quick rounds and hardly any pulses, so that tests need not wait and pulses do not stand between. */
export const QUICK = { coalesceMs: 10, beatMs: 60_000 };

/** What a page knows after all that it was told, put together as pages do. */
export function known(told: readonly ServerMessage[]): { state: State; track: number; seq: number } {
  let state: State | undefined;
  let track = 0;
  let seq = Number.NaN;
  for (const message of told) {
    if (message.type === 'snapshot') [state, track] = [message.state, message.track.length];
    else if (message.type === 'track') track += message.append.length;
    else if (message.type === 'update') {
      state = { ...state!, ...message.set };
      for (const member of message.unset ?? []) delete state[member];
    }
    if (!isA('pulse')(message) && !isA('refused')(message)) seq = message.seq;
  }
  return { state: state!, track, seq };
}

export const setting =
  (report: string) =>
  (message: ServerMessage): boolean =>
    message.type === 'update' && message.set.report === report;
