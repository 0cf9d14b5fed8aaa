import { signal } from '@preact/signals';
import type { KeysAnswer, Role } from '../../../shared/messages.ts';
import { call, type Outcome } from '../../commands.ts';
import { anew } from '../../live.ts';

/** The keys as the boat has told them last; undefined until then, and for screens that may not know. */
export const keys = signal<KeysAnswer | undefined>(undefined);

export async function loadKeys(): Promise<Outcome> {
  const { trouble, answer } = await call('GET', '/keys');
  keys.value = trouble === undefined ? (answer as KeysAnswer) : undefined;
  return trouble;
}

/** Does it, and shows what is different then. */
async function change(method: string, path: string, body?: unknown): Promise<Outcome> {
  const { trouble } = await call(method, path, body);
  await loadKeys();
  return trouble;
}

export const showCode = (role: Role): Promise<Outcome> => change('POST', '/pairing', { role });
export const endCode = (): Promise<Outcome> => change('DELETE', '/pairing');
export const takeAway = (id: string): Promise<Outcome> => change('DELETE', `/keys/${id}`);

/** The socket is opened anew: what this screen may do is told at its opening. */
async function myself(method: string, path: string, body?: unknown): Promise<Outcome> {
  const { trouble } = await call(method, path, body);
  if (trouble === undefined) anew.value++;
  return trouble;
}

export const pair = (code: string, name: string): Promise<Outcome> => myself('POST', '/pair', { code, name });
export const giveBack = (): Promise<Outcome> => myself('DELETE', '/keys/own');
