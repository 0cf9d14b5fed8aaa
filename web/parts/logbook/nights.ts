import { signal } from '@preact/signals';
import type { NightSummary } from '../../../shared/logbook/night.ts';
import type { NightsAnswer } from '../../../shared/messages/night.ts';
import { call } from '../../commands.ts';

/** The list of nights as far as it was asked for, newest first. */
export const nights = signal<NightSummary[] | undefined>(undefined);
export const total = signal(0);
export const listTrouble = signal<string | undefined>(undefined);

const PAGE = 40;
const LIMIT_MS = 20_000;

export async function readNights(): Promise<void> {
  await read(`/nights?limit=${PAGE}`, []);
}

export async function readMore(): Promise<void> {
  const held = nights.peek() ?? [];
  const last = held.at(-1);
  if (last) await read(`/nights?limit=${PAGE}&before=${encodeURIComponent(last.id)}`, held);
}

async function read(path: string, before: NightSummary[]): Promise<void> {
  const { trouble, answer } = await call('GET', path, undefined, LIMIT_MS);
  listTrouble.value = trouble;
  if (trouble !== undefined) return;
  const found = answer as NightsAnswer;
  nights.value = [...before, ...found.nights];
  total.value = found.total;
}
