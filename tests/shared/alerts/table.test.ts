import { describe, expect, test } from 'vitest';
import type { AlertState } from '../../../shared/alerts/alert.ts';
import { acknowledge, list, pass, silence, update } from '../../../shared/alerts/alerts.ts';
import { brought, T } from './help.ts';

/**
 * Every cell of the table of states in seamanship-physics.md §12, an interpretation of MSC.302(87) and IEC 62923-1 [P/M];
 * '–' means: stays as it is. Column O (responsibility transferred) is not used by hawse.
 */
const LETTERS: Record<string, AlertState> = {
  V: 'active-unacknowledged',
  S: 'active-silenced',
  A: 'active-acknowledged',
  U: 'rectified-unacknowledged',
  N: 'normal',
};
const TABLE: Record<string, Record<string, string>> = {
  raise: { V: '–', S: '–', A: '–', U: 'V', N: 'V' },
  acknowledge: { V: 'A', S: 'A', A: '–', U: 'N', N: '–' },
  silence: { V: 'S', S: '–', A: '–', U: '–', N: '–' },
  'silence timeout 30 s': { V: '–', S: 'V', A: '–', U: '–', N: '–' },
  'condition clears': { V: 'U', S: 'U', A: 'N', U: '–', N: '–' },
};

type World = ReturnType<typeof brought>;
/** What each row does at T + 30, and how many events it tells. */
const DO: Record<string, (world: World) => number> = {
  raise: ({ state, found }) => update(state, found, T + 30).length,
  acknowledge: ({ state, id }) => told(acknowledge(state, id, 'Bob', T + 30)),
  silence: ({ state, id }) => told(silence(state, id, 'Bob', T + 30)),
  'silence timeout 30 s': ({ state }) => pass(state, T + 30).length,
  'condition clears': ({ state }) => update(state, [], T + 30).length,
};
const told = (done: ReturnType<typeof acknowledge>): number => (done.ok ? done.events.length : 0);

describe('the table of states', () => {
  for (const priority of ['alarm', 'warning'] as const) {
    for (const [row, cells] of Object.entries(TABLE)) {
      for (const [from, to] of Object.entries(cells)) {
        test(`${priority}: ${row} in ${from} → ${to}`, () => {
          const world = brought(LETTERS[from]!, priority);
          const events = DO[row]!(world);
          const after = list(world.state)[0]?.state ?? 'normal';
          expect(after).toBe(LETTERS[to === '–' ? from : to]);
          expect(events).toBe(to === '–' ? 0 : 1);
        });
      }
    }
  }
});
