import { once } from 'node:events';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { mayDo, type Role } from '../../shared/access.ts';
import { CALLERS, type Caller, type Fuzzed, JSON_TYPE, startFuzzed } from './daemon.ts';
import { type Chance, createChance, mangle } from './random.ts';
import { type Campaign, createCampaign } from './report.ts';
import { createMaker, type Schema } from './schema.ts';

interface Call {
  method: string;
  path: string;
  needed: Role | undefined;
  body?: Schema | undefined;
  parameters: { name: string; in: string; schema: Schema }[];
}

type Document = {
  paths: Record<
    string,
    Record<
      string,
      {
        security?: unknown;
        requestBody?: { content?: Record<string, { schema: Schema }> };
        parameters?: Call['parameters'];
      }
    >
  >;
  components: { schemas: Record<string, Schema> };
};

/** Answers that are a refusal in words although their number begins with 5. */
const HONEST = [501, 503, 504];
const LOOK_EVERY = 500;
/** No address can be made of it. */
const LONE_SURROGATE = /\p{Surrogate}/gu;
const AT_ONCE = 8;
/** So long is no chance of a busy machine any more: no call may stop the watch. */
const LONGEST_STALL_MS = 5000;
const HEADERS = [
  'hawse-name',
  'authorization',
  'cookie',
  'origin',
  'host',
  'content-type',
  'range',
  'if-none-match',
  'accept-encoding',
  'x-forwarded-for',
  'forwarded',
  'transfer-encoding',
  'expect',
  'upgrade',
  'connection',
];
const HEADER_SPLINTERS = [
  '=',
  ';',
  ',',
  '%',
  '%zz',
  'Bearer ',
  'hawse-key=',
  '__Host-hawse-key=',
  '"',
  ' ',
  '\t',
  'x',
  '€',
  ':',
  '[::1]',
  'http://',
  'null',
  'gzip',
  'bytes=0-',
  '-1',
];

export async function apiCampaign(count: number, seed: number, tls: boolean): Promise<Campaign> {
  const campaign = createCampaign(tls ? 'calls over TLS' : 'calls', 'api');
  const chance = createChance(seed);
  const daemon = await startFuzzed(chance, tls);
  const document = JSON.parse(
    (await daemon.ask({ method: 'GET', path: '/api/v1/openapi.json', caller: 'here' })).text,
  ) as Document;
  const calls = callsOf(document);
  const make = createMaker(chance, document.components.schemas, seed);
  let done = 0;

  async function worker(): Promise<void> {
    while (done < count) {
      done++;
      if (done % LOOK_EVERY === 0) await checkAlive(daemon, campaign.found);
      if (chance.oneIn(15)) campaign.tried(await throwRaw(daemon, chance));
      else await one();
    }
  }

  async function one(): Promise<void> {
    const call = chance.pick(calls);
    // Opens a data set of a hundred megabytes: often enough to be tried, seldom enough to get to the others.
    if (call.path.includes('/tide/station') && !chance.oneIn(20)) return;
    const caller = chance.pick(CALLERS);
    // What gives its own key back has none for the rest of the campaign.
    if (call.path.endsWith('/keys/own') && mayDo(caller as Role, 'look')) return;
    const damage = chance.pick([0, 8, 25]);
    const headers = { ...JSON_TYPE, ...(chance.oneIn(4) ? strangeHeaders(chance) : {}) };
    const path = addressFor(call, chance, (schema) => make(schema, damage));
    const body = call.body ? bodyFor(make(call.body, damage), chance) : undefined;
    const asked = { method: call.method, path, headers, caller, ...(body === undefined ? {} : { body }) };
    const reply = await daemon.ask(asked).catch((error: NodeJS.ErrnoException) => error);
    if (reply instanceof Error) {
      // Node itself refuses to send such a header or path; a reset is the server's right when it cannot be read.
      campaign.tried(reply.code ?? reply.name);
      return;
    }
    campaign.tried(`${reply.status}`);
    const wrong =
      faultOf(reply.status, reply.type, reply.text) ?? roleFault(call, path, caller, headers, reply.status);
    if (wrong)
      campaign.found(`${wrong}: ${call.method} ${path} by ${caller}: ${reply.text.slice(0, 200)}`, asked);
  }

  const stalls = monitorEventLoopDelay();
  stalls.enable();
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  stalls.disable();
  if (stalls.max / 1e6 > LONGEST_STALL_MS)
    campaign.found(`the daemon stood still for ${Math.round(stalls.max / 1e6)} ms`, null);
  await checkAlive(daemon, campaign.found);
  await daemon.stop();
  return campaign.done();
}

function callsOf({ paths }: Document): Call[] {
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { security, requestBody, parameters }]) => ({
      method: method.toUpperCase(),
      path,
      needed: !security
        ? undefined
        : path.includes('/alerts/')
          ? ('acknowledge' as const)
          : ('command' as const),
      body: requestBody?.content?.['application/json']?.schema,
      parameters: parameters ?? [],
    })),
  );
}

function addressFor(call: Call, chance: Chance, make: (schema: Schema) => unknown): string {
  let { path } = call;
  const query: string[] = [];
  for (const { name, in: where, schema } of call.parameters) {
    const value = encodeURIComponent(inWords(make(schema)).replace(LONE_SURROGATE, '?'));
    if (where === 'path') path = path.replace(`{${name}}`, value || 'x');
    else if (chance.oneIn(2)) query.push(`${name}=${value}`);
  }
  const whole = query.length > 0 ? `${path}?${query.join('&')}` : path;
  return chance.oneIn(15)
    ? encodeURI(
        mangle(whole, chance, ['%', '/', '..', '?', '&', '=', '%00', '%2e', '\\']).replace(
          LONE_SURROGATE,
          '?',
        ),
      )
    : whole;
}

const inWords = (value: unknown): string =>
  typeof value === 'string' ? value : (JSON.stringify(value) ?? '');

function bodyFor(value: unknown, chance: Chance): string {
  const text = JSON.stringify(value) ?? '';
  return chance.oneIn(10)
    ? mangle(text, chance, ['"', '{', '}', '[', ']', ',', ':', '\\u', '1e999', '-', 'null', '\u0000'])
    : text;
}

function strangeHeaders(chance: Chance): Record<string, string> {
  const name = chance.pick(HEADERS);
  let value = mangle(
    chance.pick(['', 'x', 'Bearer x', 'hawse-key=x; a=b', 'application/json', 'http://127.0.0.1']),
    chance,
    HEADER_SPLINTERS,
  );
  if (chance.oneIn(30)) value = 'x'.repeat(9000);
  // What no client can send is thrown by the raw campaign.
  return { [name]: value.replace(/[^\t\x20-\x7e]/g, '?') };
}

/** What no answer may be. */
export function faultOf(status: number, type: string, text: string): string | undefined {
  if (status >= 500 && !HONEST.includes(status)) return `an error of hawse (${status})`;
  if (status < 400) return undefined;
  if (!/^application\/problem\+json/.test(type))
    return `a refusal that is no problem details (${status}, ${type})`;
  try {
    const { detail, status: told } = JSON.parse(text) as { detail?: unknown; status?: unknown };
    return typeof detail === 'string' && detail !== '' && told === status
      ? undefined
      : 'a refusal without words';
  } catch {
    return 'a refusal that is no JSON';
  }
}

/** Nobody may do what their role does not give them, however it is asked. */
function roleFault(
  call: Call,
  path: string,
  caller: Caller,
  headers: Record<string, string>,
  status: number,
): string | undefined {
  if (status >= 300 || call.needed === undefined || caller === 'here') return undefined;
  if (headers['x-forwarded-for'] !== undefined) return undefined;
  // A mangled address may be that of a page, or of another call.
  if (!isOf(call, path)) return undefined;
  const role = caller === 'stranger' || caller === 'guesser' ? 'look' : caller;
  return mayDo(role, call.needed) ? undefined : `${caller} was let do what needs ${call.needed}`;
}

const isOf = (call: Call, path: string): boolean =>
  new RegExp(`^${call.path.replace(/\{\w+\}/g, '[^/?]+')}(?:\\?.*)?$`).test(path);

/** A request as no client would write it. */
async function throwRaw(daemon: Fuzzed, chance: Chance): Promise<string> {
  const socket = daemon.raw(daemon.addressOf('stranger'));
  socket.on('error', () => {});
  let heard = '';
  socket.on('data', (data) => {
    heard += data.toString('latin1');
  });
  const request = `${chance.pick(['GET', 'POST', 'DELETE', 'PATCH'])} /api/v1/${chance.pick(['state', 'mark', 'weigh', 'keys', 'pair'])} HTTP/1.1\r\nHost: 127.0.0.1:${daemon.port}\r\nX-Forwarded-For: 192.0.2.1\r\nCookie: hawse-key=${chance.bytes(9).toString('base64url')}\r\nContent-Type: application/json\r\nContent-Length: 2\r\n\r\n{}`;
  const bytes = chance.oneIn(4)
    ? chance.bytes(chance.below(600))
    : Buffer.from(
        mangle(
          mangle(request, chance, ['\r', '\n', '\r\n', ':', ' ', '\0', 'HTTP/9', 'chunked', '-1']),
          chance,
          ['\r\n'],
        ),
        'latin1',
      );
  socket.end(bytes);
  const timer = setTimeout(() => socket.destroy(), 200);
  await once(socket, 'close');
  clearTimeout(timer);
  return `raw ${/^HTTP\/1\.1 (\d+)/.exec(heard)?.[1] ?? 'nothing'}`;
}

/** The watch goes on: the state is told, and hawse has met no error of its own. */
export async function checkAlive(
  daemon: Fuzzed,
  found: (what: string, reproduce: unknown) => void,
): Promise<void> {
  const reply = await daemon.ask({ method: 'GET', path: '/api/v1/state', caller: 'here' });
  if (reply.status !== 200)
    return found(`the state is not told: ${reply.status} ${reply.text.slice(0, 200)}`, null);
  const { alerts } = JSON.parse(reply.text) as { alerts: { kind: string; text: string }[] };
  const own = alerts.find(
    ({ kind, text }) => kind === 'daemon' && /error of its own|met an error/.test(text),
  );
  if (own) found(`hawse met an error of its own: ${own.text}`, null);
}
