import { computed } from '@preact/signals';
import { link, shown } from '../../live.ts';

/** Whether anybody at the helm would see a signal, from what the boat tells of the open pages. */
export type Helm =
  | { is: 'calling' }
  | { is: 'no-link'; since: number }
  | { is: 'none' }
  | { is: 'hidden' | 'no-key' | 'sees'; name: string };

/** What the boat calls the page at the helm. */
const HELM = 'weigh';

export const helm = computed<Helm>(() => {
  const now = link.value;
  if (now.status === 'lost' || now.status === 'stopped') return { is: 'no-link', since: now.since };
  const state = shown.value;
  if (!state) return { is: 'calling' };
  const pages = state.pages.filter(({ page }) => page === HELM);
  const first = pages[0];
  if (!first) return { is: 'none' };
  const able = pages.filter(({ mayAnswer }) => mayAnswer);
  const seeing = able.find(({ visible, silent }) => visible && !silent);
  if (seeing) return { is: 'sees', name: seeing.name };
  return able[0] ? { is: 'hidden', name: able[0].name } : { is: 'no-key', name: first.name };
});
