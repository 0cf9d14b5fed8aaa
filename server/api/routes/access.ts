import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type AccessChange, type KeyView, mayDo, type Role } from '../../../shared/access.ts';
import {
  keyRequest,
  keysAnswer,
  madeAnswer,
  type PairingAnswer,
  pairAnswer,
  pairingAnswer,
  pairingRequest,
  pairRequest,
  takenAwayAnswer,
} from '../../../shared/messages.ts';
import { type AccessPorts, cookieWith, noCookies } from '../access.ts';
import type { App } from '../app.ts';
import { cleanName, sign } from '../author.ts';
import { nothing, order } from '../command.ts';
import { answers, COMMAND_SECURITY } from '../documentation.ts';
import { Problem } from '../problem.ts';
import type { RoutePorts } from './all.ts';

/** What anybody may try: to be paired by the code, and to give the own key back. */
export function addOwnKey(app: App, ports: RoutePorts): void {
  const { access, given } = ports;
  const schema = {
    summary: 'Pair this browser by the code that the boat’s computer shows: it gets a key as a cookie',
    body: pairRequest,
    response: answers(pairAnswer),
  };
  app.post('/pair', { schema }, async (request, reply) => {
    const { code, name, role } = request.body;
    if (access.guesses.tooMany(request.raw))
      throw new Problem('too-many-keys', 'Too many wrong codes or keys. Wait a minute.');
    let made: { key: string; view: KeyView } | undefined;
    const redeemed = given.pairing.redeem(code, role, (granted) => {
      made = add(given, name, granted);
    });
    if (!redeemed.ok && redeemed.why !== 'role') access.guesses.add(request.raw);
    if (!redeemed.ok || !made)
      throw new Problem('code-wrong', WHY_NOT_PAIRED[redeemed.ok ? 'wrong' : redeemed.why]);
    access.forgive(request.raw);
    sign(request, { key: made.view });
    await tell(ports, request, 'paired', made.view);
    reply.header('set-cookie', cookieWith(made.key, request.raw));
    return { key: made.view };
  });

  const forget = {
    summary: 'Give the own key back: this device may no more than any other from now on',
    body: nothing,
    response: answers(takenAwayAnswer),
  };
  app.delete('/keys/own', { schema: forget }, async (request, reply) => {
    const { key } = access.standing(request.raw);
    reply.header('set-cookie', noCookies(request.raw));
    if (!key) throw new Problem('unknown', 'This device bears no key of this boat.');
    sign(request, { key });
    return takeAway(ports, request, reply, key.id);
  });
}

const WHY_NOT_PAIRED = {
  closed:
    'No code is good now: it was used, or its ten minutes are over. A new one is on the page "Phones" of a device that may command, or from "hawse pair" on the boat’s computer.',
  wrong: 'That is not the code. Eight letters and digits, without I, L, O, U, 0 and 1.',
  'closed-by-guesses':
    'Too many wrong codes were told, so the code is good no more. Make a new one: the page "Phones", or "hawse pair".',
  role: 'The code does not give that much: ask for a lower role, or for another code.',
} as const;

/** The keys and the pairing, for those who may command. */
export function addAccess(app: App, ports: RoutePorts): void {
  const { access, given, pairingAddresses } = ports;
  const { keys, pairing } = given;

  const withAddresses = (open: Omit<PairingAnswer, 'addresses'>): PairingAnswer => ({
    ...open,
    addresses: pairingAddresses(open.code),
  });

  const list = {
    summary: 'Every key that was given, and the code that is open',
    security: COMMAND_SECURITY,
    response: answers(keysAnswer),
  };
  app.get('/keys', { schema: list }, (request) => {
    const own = access.standing(request.raw).key?.id;
    const open = pairing.current();
    return {
      keys: keys.list(),
      ...(own === undefined ? {} : { own }),
      ...(open ? { pairing: withAddresses(open) } : {}),
    };
  });

  const make = {
    summary: 'A key for a program, told once',
    security: COMMAND_SECURITY,
    body: keyRequest,
    response: answers(madeAnswer),
  };
  app.post('/keys', { schema: make }, async (request) => {
    const { name, role } = request.body;
    const { key: bearer, view: key } = add(given, name, role);
    await tell(ports, request, 'made', key);
    return { key, bearer };
  });

  const away = {
    summary: 'Take a key away: it opens nothing from now on',
    security: COMMAND_SECURITY,
    params: z.strictObject({
      id: z.string().regex(/^[0-9a-f]{8}$/, 'expected the id of a key, as GET /keys lists it'),
    }),
    body: nothing,
    response: answers(takenAwayAnswer),
  };
  app.delete('/keys/:id', { schema: away }, (request, reply) =>
    takeAway(ports, request, reply, request.params.id),
  );

  const open = {
    summary: 'Make a code by which one phone can be paired within ten minutes',
    security: COMMAND_SECURITY,
    body: pairingRequest.nullish(),
    response: answers(pairingAnswer),
  };
  app.post('/pairing', { schema: open }, (request) =>
    withAddresses(pairing.open(request.body?.role ?? 'command')),
  );

  const close = {
    summary: 'The code is good no more',
    security: COMMAND_SECURITY,
    body: nothing,
    response: answers(z.strictObject({})),
  };
  app.delete('/pairing', { schema: close }, () => {
    pairing.close();
    return {};
  });
}

async function takeAway(
  ports: RoutePorts,
  request: FastifyRequest,
  reply: FastifyReply,
  id: string,
): Promise<{ key: KeyView }> {
  const { given, access, dropKey } = ports;
  mustLeaveACommander(given.keys.list(), id, given.thisComputer);
  const own = access.standing(request.raw).key?.id === id;
  const key = keep(() => given.keys.takeAway(id));
  if (!key) throw new Problem('unknown', `There is no key "${id}".`);
  dropKey(id);
  if (own) reply.header('set-cookie', noCookies(request.raw));
  await tell(ports, request, 'taken-away', key);
  return { key };
}

/** Where this computer may not command either, the last key that may is the only way in. */
function mustLeaveACommander(keys: KeyView[], id: string, thisComputer: Role): void {
  const commanders = keys.filter(({ role }) => role === 'command');
  if (mayDo(thisComputer, 'command') || commanders.length !== 1 || commanders[0]!.id !== id) return;
  throw new Problem('refused', `"${commanders[0]!.name}" is the last that may command: pair another first.`);
}

/** Access is changed by commands that everybody can read later. */
async function tell(
  { desk }: RoutePorts,
  request: FastifyRequest,
  what: AccessChange['what'],
  { name, role }: KeyView,
): Promise<void> {
  await order(desk, { do: 'access', change: { what, name, role } }, request);
}

function add({ keys }: AccessPorts, name: string, role: Role): { key: string; view: KeyView } {
  if (keys.full())
    throw new Problem('refused', `There are ${keys.list().length} keys already: take some away first.`);
  return keep(() => keys.add(cleanName(name), role));
}

/** What the disk refuses is no error of hawse's own, and the person must know that it does not hold. */
function keep<T>(write: () => T): T {
  try {
    return write();
  } catch (error) {
    throw new Problem('not-kept', `It cannot be kept: ${(error as Error).message}`);
  }
}
