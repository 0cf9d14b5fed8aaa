import { z } from 'zod';
import type { LeftView } from '../state.ts';
import type { CheckItem, CheckView, Departure } from '../weigh/check-view.ts';
import { time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';
import { mark, worstLoad } from './watch.ts';

/** The departure check, and the anchorage that was left. */

const checkItem = same<CheckItem>()(
  z.object({
    item: z.enum(['wind', 'stream', 'depth', 'neighbours', 'position', 'lie']),
    state: z.enum(['good', 'look', 'unknown']),
    text: z.string(),
  }),
);

const departure = same<Departure>()(
  z.object({
    at: time,
    by: z.string(),
    ticked: z.array(z.string()),
    open: z.array(z.string()).describe('On the list and not ticked'),
    look: z.array(checkItem).describe('What was measured then and was not good'),
  }),
);

export const checkView = same<CheckView>()(
  z.object({
    measured: z.array(checkItem).describe('What hawse measures now'),
    items: z.array(z.string()).describe('What only people can see'),
    own: z.literal(true).describe("The list is the crew's own").exactOptional(),
    last: departure.exactOptional(),
  }),
).meta({ id: 'Check', description: 'The departure check: it warns and forbids nothing' });

export const leftView = same<LeftView>()(
  z.object({
    at: time,
    by: z.string(),
    mark,
    since: time,
    farthest: z.number().exactOptional(),
    worstLoad: worstLoad.exactOptional(),
    undoUntil: time.describe('Until then "aweigh" can be taken back'),
    leaving: z.object({ run: z.number(), distance: z.number(), until: time.exactOptional() }),
  }),
).meta({ id: 'Left', description: 'The last anchorage, once its mark is closed' });

const item = z.string().trim().min(1).max(60);

export const checkRequest = strict({
  ticked: z.array(item).max(30).describe('Of the items of the list: what somebody has seen to'),
}).meta({ id: 'CheckRequest', examples: [{ ticked: ['Cooling water flows'] }] });

export const checkItemsRequest = strict({
  items: z.array(item).max(30).nullable().describe('null: the common list'),
}).meta({
  id: 'CheckItemsRequest',
  examples: [{ items: ['Cooling water flows', 'Dinghy aboard'] }, { items: null }],
});

export const checkAnswer = z
  .object({ check: checkView.describe('Absent without a mark').exactOptional() })
  .meta({ id: 'CheckAnswer' });
