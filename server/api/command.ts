import type { FastifyRequest } from 'fastify';
import type { Command } from '../../shared/commands.ts';
import type { Answer } from '../../shared/events.ts';
import { strict } from '../../shared/messages/strict.ts';
import type { Access } from './access.ts';
import { authorOf } from './author.ts';
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

/** A hook that lets only those pass who may command; it runs before the body is read. */
export function commandersOnly(access: Access) {
  return async (request: FastifyRequest): Promise<void> => {
    switch (access.standing(request.raw)) {
      case 'may-command':
        return;
      case 'no-key':
        throw new Problem('key-needed', `This device may look, not command. ${HOW_TO_GET_THE_KEY}`);
      case 'wrong-key':
        throw new Problem('key-wrong', HOW_TO_GET_THE_KEY);
      case 'too-many-keys':
        throw new Problem('too-many-keys', 'Too many wrong keys from this address. Wait a minute.');
    }
  };
}

export const HOW_TO_GET_THE_KEY =
  "Open the address that hawse printed when it started: it ends in /?key=… and gives this device the boat's key. " +
  'The key also stands in the file "key" of the data folder. Programs send it as "Authorization: Bearer KEY".';
