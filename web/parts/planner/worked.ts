import { computed, effect, signal } from '@preact/signals';
import type { PlanAnswer } from '../../../shared/messages/plan.ts';
import type { PlanRequest } from '../../../shared/plan/request.ts';
import { link, shown } from '../../live.ts';
import { words } from '../../words.ts';
import { draft, type Faults, requestOf } from './draft.ts';
import { type Refusal, refusalOf } from './faults.ts';

/** Asks the boat for the plan of what is written, and knows whether the answer at hand belongs to it. */

/** A plan with the request that it answers. */
export interface Worked {
  request: PlanRequest;
  answer: PlanAnswer;
  /** This device's clock, ms. */
  at: number;
}

/** `plan` is the last one that came, also where it no longer belongs to what is written: for drawing in outline only. */
export type Standing = { plan?: Worked | undefined } & (
  | { status: 'worked'; plan: Worked }
  | { status: 'working' }
  | { status: 'incomplete'; faults: Faults }
  | { status: 'refused'; refusal: Refusal }
  /** Nothing came back: `why` in words. */
  | { status: 'unanswered'; why: string }
);

/** A finger on a stepper presses faster than this, ms. */
const PAUSE_MS = 70;
const LIMIT_MS = 8000;
const AGAIN_MS = 2000;

const boat = computed(() => shown.value?.boat);
const cable = computed(() => shown.value?.cable);
const isOpen = computed(() => link.value.status === 'open');

const wanted = computed(() => {
  if (!boat.value || !cable.value) return undefined;
  const made = requestOf(draft.value, boat.value, cable.value);
  return 'faults' in made ? made : { ...made, key: JSON.stringify(made.request) };
});

const plan = signal<(Worked & { key: string }) | undefined>(undefined);
const failure = signal<{ key: string; refusal?: Refusal; why?: string } | undefined>(undefined);

export const standing = computed<Standing>(() => {
  const want = wanted.value;
  const last = plan.value;
  if (!want) return { status: 'working', plan: last };
  if ('faults' in want) return { status: 'incomplete', faults: want.faults, plan: last };
  if (last?.key === want.key) return { status: 'worked', plan: last };
  if (failure.value?.key === want.key) {
    const { refusal, why } = failure.value;
    if (refusal) return { status: 'refused', refusal, plan: last };
    if (why !== undefined) return { status: 'unanswered', why, plan: last };
  }
  return isOpen.value
    ? { status: 'working', plan: last }
    : { status: 'unanswered', why: words.planner.noLink, plan: last };
});

let stop = new AbortController();

/** Changes only when the question does, not with every state that the boat tells. */
const question = computed(() => {
  const want = wanted.value;
  return want && 'key' in want ? want.key : undefined;
});

effect(() => {
  const key = question.value;
  stop.abort();
  const want = wanted.peek();
  if (!want || !('key' in want) || !isOpen.value || key === plan.peek()?.key) return;
  const asked = new AbortController();
  stop = asked;
  askAfter(PAUSE_MS, want, asked.signal);
});

function askAfter(ms: number, want: { request: PlanRequest; key: string }, signal: AbortSignal): void {
  const timer = setTimeout(() => void ask(want, signal), ms);
  signal.addEventListener('abort', () => clearTimeout(timer), { once: true });
}

async function ask(want: { request: PlanRequest; key: string }, signal: AbortSignal): Promise<void> {
  const { request, key } = want;
  const answer = await call(request, signal);
  if (signal.aborted) return;
  if ('plan' in answer) {
    plan.value = { request, key, answer: answer.plan, at: Date.now() };
    failure.value = undefined;
    return;
  }
  failure.value = { key, ...answer };
  if (!('refusal' in answer)) askAfter(AGAIN_MS, want, signal);
}

async function call(
  request: PlanRequest,
  signal: AbortSignal,
): Promise<{ plan: PlanAnswer } | { refusal: Refusal } | { why: string }> {
  const late = new AbortController();
  const timer = setTimeout(() => late.abort(), LIMIT_MS);
  const abort = () => late.abort();
  signal.addEventListener('abort', abort, { once: true });
  try {
    const answer = await fetch('/api/v1/plan', {
      method: 'POST',
      signal: late.signal,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(request),
    });
    const body = await answer.json();
    if (answer.ok) return { plan: body };
    return answer.status === 400 ? { refusal: refusalOf(body) } : { why: body.detail ?? body.title };
  } catch {
    return { why: words.planner.noAnswer };
  } finally {
    clearTimeout(timer);
    signal.removeEventListener('abort', abort);
  }
}
