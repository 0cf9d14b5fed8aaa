import type { FastifyReply, FastifyRequest } from 'fastify';
import { mayDo, type Role } from '../../shared/access.ts';
import type { Command } from '../../shared/commands.ts';
import type { Answer } from '../../shared/events.ts';
import { strict } from '../../shared/messages/strict.ts';
import { type Access, noCookies, type Standing } from './access.ts';
import { authorOf, sign } from './author.ts';
import type { Desk } from './desk.ts';
import { Problem } from './problem.ts';

type Done = Extract<Answer, { ok: true }>;

/** Body of a call that needs none. */
export const nothing = strict({}).nullish();

/** Passes a person's command on to the desk; throws the Problem that the desk sees in it. */
export async function order(desk: Desk, command: Command, request: FastifyRequest): Promise<Done> {
  const answer = await desk.command(command, authorOf(request));
  if (answer.ok) return answer;
  throw new Problem(answer.problem, answer.why);
}

/** A hook that lets only those pass whose role suffices; it runs before the body is read. */
export function only(needed: Role, access: Access) {
  return async (request: FastifyRequest, reply: FastifyReply): Promise<void> => {
    if (access.allowsAnyone(needed)) return;
    const standing = access.standing(request.raw);
    if (mayDo(standing.role, needed)) return sign(request, standing);
    if (standing.fault === 'wrong-key') reply.header('set-cookie', noCookies(request.raw));
    throw refusal(standing, needed);
  };
}

/** Why that role does not suffice, and what to do about it. */
export function refusal({ role, key, fault }: Standing, needed: Role): Problem {
  if (fault === 'too-many-keys')
    return new Problem('too-many-keys', 'Too many wrong keys from this address. Wait a minute.');
  if (fault === 'wrong-key')
    return new Problem('key-wrong', `The key of this device is none of this boat's. ${HOW_TO_PAIR}`);
  if (key)
    return new Problem(
      'role-too-low',
      `"${key.name}" may ${MAY[key.role]}; this needs a device that may ${MAY[needed]}. ${HOW_TO_PAIR}`,
    );
  const may = role === undefined ? 'This device is not paired' : `This device may ${MAY[role]}`;
  return new Problem('key-needed', `${may}; this needs one that may ${MAY[needed]}. ${HOW_TO_PAIR}`);
}

const MAY: Record<Role, string> = {
  look: 'look',
  acknowledge: 'look, silence and acknowledge',
  command: 'command',
};

export const HOW_TO_PAIR =
  'Pair it: open /phones on it and type the code that a device which may command shows on its page "Phones", or that ' +
  '"hawse pair" prints on the boat’s computer. Programs bear a key made there: "Authorization: Bearer KEY".';
