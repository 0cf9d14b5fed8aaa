import { type Lack, lacks, wouldWake } from '../shared/phone.ts';
import type { PageView } from '../shared/state.ts';
import type { OpenPhone } from './api/live/clients.ts';

/**
 * Knows which phones the crew count on to wake them, and when none of them would. Pure: it is told the open pages and the time.
 * A phone is counted on from the moment that somebody armed it until somebody disarms it, wherever it has gone meanwhile; only
 * pages that may acknowledge count, so that a guest's phone hides nothing and disarms nobody.
 */
export interface PhonesState {
  /** Nobody sleeps: the anchor is aweigh or being weighed. Nothing is expected of phones until the next mark or arming. */
  resting: boolean;
  /** By what the browser calls itself: the phone as it was last heard. */
  expected: Record<string, PageView>;
  /** Monotonic time at which a phone was last known to wake somebody, or was armed, ms. */
  lastGoodMs: number;
}

/** Seconds without any phone that would wake somebody, until the boat warns: time to reload a page or cross the deck. */
export const PHONES_LIMIT_S = 15;

/** `nowMs`: monotonic. What is expected after a restart gets the whole limit to come back. */
export const createPhones = (
  nowMs: number,
  kept?: Pick<PhonesState, 'resting' | 'expected'>,
): PhonesState => ({
  resting: kept?.resting ?? false,
  expected: kept?.expected ?? {},
  lastGoodMs: nowMs,
});

/** `raise` is undefined while it is too early to say. */
export interface Verdict {
  raise?: { raised: boolean; text: string };
  /** What is expected is different now, and worth keeping. */
  changed: boolean;
}

/** Takes the pages that are open at `nowMs` and judges. */
export function look(state: PhonesState, open: readonly OpenPhone[], nowMs: number): Verdict {
  let changed = false;
  const present = byPhone(open.filter(({ view }) => view.mayAnswer));
  for (const [phone, pages] of present) {
    const latest = pages.reduce((a, b) => (b.heardMs > a.heardMs ? b : a));
    const known = state.expected[phone];
    if (!latest.view.armed) {
      if (known && !latest.view.silent) {
        delete state.expected[phone];
        changed = true;
      }
      continue;
    }
    if (!known) {
      // Whoever arms a phone has the list before them: what was gone by then is not missed any more.
      forgetGone(state, present);
      state.resting = false;
      state.lastGoodMs = nowMs;
      changed = true;
    } else if (known.name !== latest.view.name) changed = true;
    state.expected[phone] = (pages.find(({ view }) => wouldWake(view)) ?? latest).view;
    for (const { view, heardMs } of pages)
      if (wouldWake(view)) state.lastGoodMs = Math.max(state.lastGoodMs, heardMs);
  }
  for (const [phone, view] of Object.entries(state.expected)) {
    if (!present.has(phone) && !view.silent) state.expected[phone] = { ...view, silent: true };
  }
  return { changed, ...judge(state, present, nowMs) };
}

function judge(
  { resting, expected, lastGoodMs }: PhonesState,
  present: ReadonlyMap<string, readonly OpenPhone[]>,
  nowMs: number,
): Pick<Verdict, 'raise'> {
  const phones = Object.entries(expected);
  const someWakes = phones.some(([phone]) => present.get(phone)?.some(({ view }) => wouldWake(view)));
  if (resting || phones.length === 0) return { raise: { raised: false, text: 'No phone is counted on.' } };
  if (someWakes) return { raise: { raised: false, text: 'An armed phone would wake somebody again.' } };
  if (nowMs - lastGoodMs < PHONES_LIMIT_S * 1000) return {};
  return { raise: { raised: true, text: wordsFor(phones.map(([, view]) => view)) } };
}

/** The watch has ended or is being ended by hand: phones may go into pockets. */
export function rest(state: PhonesState): boolean {
  const changed = !state.resting;
  state.resting = true;
  for (const [phone, view] of Object.entries(state.expected)) if (view.silent) delete state.expected[phone];
  return changed;
}

/** The watch begins or goes on. */
export function expectAgain(state: PhonesState, nowMs: number): boolean {
  const changed = state.resting;
  if (changed) state.lastGoodMs = nowMs;
  state.resting = false;
  return changed;
}

/** Armed phones that are not there, for the lists on the pages. */
export function gone(state: PhonesState, open: readonly OpenPhone[]): PageView[] {
  const present = new Set(open.map(({ phone }) => phone));
  return Object.entries(state.expected)
    .filter(([phone]) => !present.has(phone))
    .map(([, view]) => ({ ...view, silent: true }));
}

function byPhone(open: readonly OpenPhone[]): Map<string, OpenPhone[]> {
  const found = new Map<string, OpenPhone[]>();
  for (const page of open) found.set(page.phone, [...(found.get(page.phone) ?? []), page]);
  return found;
}

function forgetGone(state: PhonesState, present: ReadonlyMap<string, unknown>): void {
  for (const phone of Object.keys(state.expected)) if (!present.has(phone)) delete state.expected[phone];
}

const REASONS: Record<Lack, string> = {
  silent: 'is not heard',
  hidden: 'shows something else or is locked',
  sound: 'cannot sound',
  'wake-lock': 'may lock itself',
  battery: 'has an empty battery',
};

function wordsFor(phones: readonly PageView[]): string {
  const each = phones.map((phone) => {
    const [first] = lacks(phone);
    return `${phone.name || 'a phone without name'} ${first ? REASONS[first] : 'is not heard'}`;
  });
  return `No armed phone would wake anybody: ${each.join('; ')}. Arm a phone again, or disarm it on purpose.`;
}
