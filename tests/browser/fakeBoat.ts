import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { type WebSocket, WebSocketServer } from 'ws';
import type { Role } from '../../shared/access.ts';
import type { PageMessage } from '../../shared/messages.ts';
import type { State } from '../../shared/state.ts';
import type { Quantity } from '../../shared/vessel/view.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';
import { calmState, trackUntil } from './fakeState.ts';

/** What a server under test offers to every page test; the real daemon can stand in its place. */
export interface Boat {
  url: string;
  stop(): Promise<void>;
}

/** A scripted boat: the pages cannot tell it from the daemon, and a test can make it say anything. */
export interface HelmAnswer {
  status: number;
  body: object;
}

export interface FakeBoat extends Boat {
  /** Changes the state from now on; called on every tick with a fresh calm state. */
  script(change: (state: State, at: number) => void): void;
  /** What pages that open from now on are told of the track. */
  remember(track: (at: number) => TrackPoint[]): void;
  /** From now on these quantities are not heard any more: their figures go, their ages grow. */
  lose(...quantities: Quantity[]): void;
  /** Keeps the sockets open and says nothing. */
  hush(): void;
  speak(): void;
  /** Goes on with its pulses, but its figures stand still. */
  stall(): void;
  goodbye(reason: string): void;
  /** Closes every socket, as a broken link would. */
  cut(): void;
  /** Answers every command with this reason. */
  refuse(why: string | undefined): void;
  /** Tells pages that open from now on that they may not command. */
  lookOnly(): void;
  /** Answers signals from now on; undefined: nobody answers at all. */
  helm(answer: (signal: string) => Promise<HelmAnswer | undefined>): void;
  /** Names that commands bore. */
  readonly authors: string[];
  /** Commands that came, in order, e.g. "POST /mark {}". */
  readonly commands: string[];
  readonly heard: PageMessage[];
  readonly connections: string[];
}

const TICK_MS = 250;
const PULSE_MS = 2000;
const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
/** As the daemon sends it: what the pages must be able to live with. */
const POLICY =
  "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'";

/** On a free port of this computer, or on a told one of an address of its own, which nobody else can have taken meanwhile. */
export async function startFakeBoat(webRoot: string, port = 0, host = '127.0.0.1'): Promise<FakeBoat> {
  let change: (state: State, at: number) => void = () => {};
  const lost = new Map<Quantity, number>();
  const answers = new Map<string, Partial<State['alerts'][number]>>();
  let watch: Partial<State['watch']> = {};
  let weighingSince: number | undefined;
  let isHushed = false;
  let isStalled = false;
  let refusal: string | undefined;
  let past = (at: number): TrackPoint[] => trackUntil(at, 1800);
  let helm: Parameters<FakeBoat['helm']>[0] = async () => ({ status: 200, body: { number: 1 } });
  let role: Role = 'command';
  let seq = 0;
  let sent: Record<string, unknown>[] = [];
  const commands: string[] = [];
  const authors: string[] = [];
  const heard: PageMessage[] = [];
  const connections: string[] = [];

  const now = () => Date.now() / 1000;
  const begun = now();

  function state(): State {
    const at = now();
    const made = calmState(at, begun);
    change(made, at);
    Object.assign(made.watch, watch);
    if (weighingSince !== undefined) {
      made.watch.phase = 'weighing';
      made.watch.standDown = ['outside-circle', 'wind-shift'];
      made.weigh = { ...made.weigh, since: weighingSince };
    }
    if (made.watch.mark === undefined) noMark(made);
    for (const [quantity, since] of lost) takeAway(made, quantity, at - since);
    made.alerts = made.alerts.map((alert) => ({ ...alert, ...answers.get(alert.id) }));
    return made;
  }

  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://boat').pathname;
    if (path.startsWith('/api/v1/')) void command(path.slice('/api/v1'.length), request, response);
    else file(path, response);
  });

  function file(path: string, response: ServerResponse): void {
    const wanted = join(webRoot, normalize(path));
    const found = existsSync(wanted) && statSync(wanted).isFile() ? wanted : join(webRoot, 'index.html');
    response.writeHead(200, {
      'content-type': TYPES[extname(found)] ?? 'application/octet-stream',
      'content-security-policy': POLICY,
    });
    createReadStream(found).pipe(response);
  }

  async function command(path: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
    let text = '';
    for await (const chunk of request) text += chunk;
    authors.push(decodeURIComponent(String(request.headers['hawse-name'] ?? '')));
    commands.push(`${request.method} ${path} ${text}`.trim());
    const body = text ? JSON.parse(text) : {};
    if (path === '/signals' && refusal === undefined) {
      const answer = await helm(String(body.signal));
      if (!answer) return void request.socket.destroy();
      response.writeHead(answer.status, { 'content-type': 'application/json' });
      response.end(JSON.stringify(answer.body));
      return;
    }
    const problem = refusal ?? act(`${request.method} ${path}`, body);
    response.writeHead(problem ? 422 : 200, {
      'content-type': problem ? 'application/problem+json' : 'application/json',
    });
    const answer = path === '/mark' ? { mark: watch.mark } : {};
    response.end(JSON.stringify(problem ? { title: 'Not possible', status: 422, detail: problem } : answer));
    tick();
  }

  function act(call: string, body: Record<string, unknown>): string | undefined {
    const at = now();
    const alert = /^POST \/alerts\/([^/]+)\/(acknowledge|silence)$/.exec(call);
    if (alert) {
      const id = decodeURIComponent(alert[1]!);
      if (alert[2] === 'silence') answers.set(id, { state: 'active-silenced', stateSince: at });
      else
        answers.set(id, {
          state: 'active-acknowledged',
          stateSince: at,
          acknowledgedBy: 'a page',
          acknowledgedAt: at,
        });
      return undefined;
    }
    switch (call) {
      case 'POST /mark':
        watch = {
          ...watch,
          mark: { lat: -16.5, lon: 179.9999, sigma: 2.8, at, by: 'a page', how: howOf(body) },
        };
        return undefined;
      case 'POST /weigh/aweigh':
        watch = { ...watch, mark: undefined as never, phase: 'no-mark' };
        return undefined;
      case 'PATCH /watch': {
        const radius = body.circleRadius;
        if (typeof radius === 'number' && radius < 5)
          return `circleRadius is ${radius} m; allowed is 5 to 2000 m, or null for a computed circle.`;
        if (typeof radius === 'number')
          watch = { ...watch, circle: { radius, computed: false, explanation: 'Set by hand.' } };
        if (typeof body.veered === 'number') watch = { ...watch, veered: body.veered };
        return undefined;
      }
      case 'POST /neighbours':
      case 'DELETE /neighbours/hand-1':
      case 'PUT /tide':
      case 'POST /weigh/hold-wind':
      case 'POST /check':
      case 'PUT /check/items':
        return undefined;
      case 'POST /weigh':
        weighingSince = at;
        return undefined;
      case 'DELETE /weigh':
        weighingSince = undefined;
        return undefined;
      default:
        return `There is no ${call}.`;
    }
  }

  const sockets = new WebSocketServer({ server, path: '/live' });
  sockets.on('connection', (socket, request) => {
    const query = new URL(request.url ?? '', 'http://boat').searchParams;
    connections.push(query.toString());
    socket.on('message', (data) => heard.push(JSON.parse(String(data))));
    if (isHushed) return;
    const since = query.get('since') === null ? undefined : Number(query.get('since'));
    const missed = sent.filter((message) => Number(message.seq) > (since ?? 0));
    const isKnown = since !== undefined && missed[0]?.seq === since + 1;
    if (isKnown) for (const message of missed) socket.send(JSON.stringify(message));
    else socket.send(snapshot());
  });

  function snapshot(): string {
    const at = now();
    return JSON.stringify({
      type: 'snapshot',
      seq,
      at,
      state: state(),
      track: past(at),
      mayCommand: role === 'command',
      role,
    });
  }

  function tell(message: Record<string, unknown>): void {
    const whole = { ...message, seq: ++seq, at: now() };
    sent = [...sent.slice(-511), whole];
    toAll(JSON.stringify(whole));
  }

  function toAll(text: string): void {
    for (const socket of sockets.clients as Set<WebSocket>) socket.send(text);
  }

  function tick(): void {
    if (isHushed || isStalled) return;
    const set = state();
    tell({ type: 'update', set, ...(set.weigh ? {} : { unset: ['weigh'] }) });
  }

  const ticker = setInterval(tick, TICK_MS);
  const pulser = setInterval(() => {
    if (!isHushed) toAll(JSON.stringify({ type: 'pulse', seq, at: now() }));
  }, PULSE_MS);

  const tracker = setInterval(() => {
    if (!isHushed) tell({ type: 'track', append: trackUntil(now(), 5) });
  }, 5000);

  await new Promise<void>((resolve) => server.listen(port, host, resolve));
  return {
    url: `http://${host}:${(server.address() as AddressInfo).port}`,
    commands,
    authors,
    heard,
    connections,
    script(next) {
      change = next;
    },
    remember(track) {
      past = track;
    },
    lose(...quantities) {
      for (const quantity of quantities) lost.set(quantity, now());
    },
    hush() {
      isHushed = true;
    },
    speak() {
      isHushed = false;
    },
    refuse(why) {
      refusal = why;
    },
    helm(answer) {
      helm = answer;
    },
    lookOnly() {
      role = 'look';
    },
    stall() {
      isStalled = true;
    },
    goodbye(reason) {
      tell({ type: 'goodbye', reason });
      isHushed = true;
    },
    cut() {
      for (const socket of sockets.clients) socket.terminate();
    },
    async stop() {
      clearInterval(ticker);
      clearInterval(pulser);
      clearInterval(tracker);
      for (const socket of sockets.clients) socket.terminate();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

const howOf = ({ fromTrack, setBack }: Record<string, unknown>) =>
  fromTrack ? 'track' : setBack ? 'set-back' : 'here';

function noMark(state: State): void {
  const { limits, standDown } = state.watch;
  state.watch = { phase: 'no-mark', limits, standDown };
  state.report = 'No mark: nobody watches the anchor.';
}

/** What falls with each quantity, as the vessel room lets it fall. */
function takeAway(state: State, quantity: Quantity, seconds: number): void {
  const { vessel, watch } = state;
  vessel.ages[quantity] = (vessel.ages[quantity] ?? 0) + seconds;
  delete vessel.sources[quantity];
  switch (quantity) {
    case 'position':
      delete vessel.antenna;
      delete vessel.roller;
      delete watch.distance;
      delete watch.bearing;
      delete watch.lead;
      break;
    case 'motion':
      delete vessel.sog;
      delete vessel.cog;
      break;
    case 'heading':
      delete vessel.heading;
      delete watch.lead;
      break;
    case 'wind':
      delete vessel.windApparent;
      delete vessel.windGround;
      break;
    case 'depth':
      delete vessel.depth;
      break;
    case 'stream':
      delete vessel.stream;
      break;
  }
}
