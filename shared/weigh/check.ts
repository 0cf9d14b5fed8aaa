import type { Answer } from '../events.ts';
import type { CheckItem, CheckView, Departure } from './check-view.ts';

/** The departure check: what hawse can measure (see conditions.ts) and what only people can see. It warns; it forbids nothing. */

/** What the engine remembers of it: plain data. */
export interface CheckState {
  /** The crew's own list, in the place of the common one. */
  items?: string[];
  last?: Departure;
}

/** What only people can see, in the order in which they go round the boat [P]. */
export const COMMON_ITEMS: readonly string[] = [
  'Cooling water flows',
  'Windlass breaker on, chain lock off',
  'Bridle or snubber ready to come off',
  'Cable leads clear',
  'Signals agreed between helm and foredeck',
  'Fenders and lines clear',
  'Way out looked at',
];

const MOST_ITEMS = 30;
const LONGEST_ITEM = 60;

const itemsOf = (state: CheckState | undefined): readonly string[] => state?.items ?? COMMON_ITEMS;

/** What pages show; `since`: when this anchorage began, so that the check of another one is not taken for this one's. */
export function checkView(
  state: CheckState | undefined,
  measured: CheckItem[],
  since: number | undefined,
): CheckView {
  const last = state?.last;
  return {
    measured,
    items: [...itemsOf(state)],
    ...(state?.items ? { own: true } : {}),
    ...(last && (since === undefined || last.at >= since) ? { last } : {}),
  };
}

type Done = { answer: Answer; words?: string };
const refused = (why: string): Done => ({ answer: { ok: false, problem: 'refused', why } });

/** Somebody has been round: keeps time, ticks and what hawse measured then; `words` go to the journal. */
export function departureCheck(
  state: CheckState,
  measured: readonly CheckItem[],
  ticked: readonly string[],
  at: number,
  by: string,
): Done {
  const items = itemsOf(state);
  const strange = ticked.find((item) => !items.includes(item));
  if (strange !== undefined) return refused(`"${strange}" is not on the list: ${items.join('; ')}.`);
  const open = items.filter((item) => !ticked.includes(item));
  const look = measured.filter((item) => item.state !== 'good');
  state.last = { at, by, ticked: items.filter((item) => ticked.includes(item)), open, look };
  const parts = [
    `Departure check by ${by}: ${items.length - open.length} of ${items.length} ticked`,
    open.length > 0 ? `; open: ${open.join(', ')}` : '',
    look.length > 0 ? `. ${look.map(({ text }) => text).join(' ')}` : '.',
  ];
  return { answer: { ok: true }, words: parts.join('') };
}

/** The crew's own list; null: the common one again. */
export function setItems(state: CheckState, items: readonly string[] | null, by: string): Done {
  if (items === null) {
    delete state.items;
    return { answer: { ok: true }, words: `Departure check by ${by}: the common list again.` };
  }
  const list = items.map((item) => item.trim());
  if (list.length > MOST_ITEMS) return refused(`A list has at most ${MOST_ITEMS} items.`);
  if (list.some((item) => item === '' || item.length > LONGEST_ITEM))
    return refused(`An item has 1 to ${LONGEST_ITEM} letters.`);
  if (new Set(list).size < list.length) return refused('No item twice.');
  state.items = list;
  return { answer: { ok: true }, words: `Departure check, list changed by ${by}: ${list.join('; ')}.` };
}
