import { clock } from '../../format.ts';
import { now, shown, trusted } from '../../live.ts';
import { helmWords as words } from '../../words/helm.ts';

/** In the head of the helm's page: can the foredeck signal, and the time. */
export function HelmHead() {
  const open = (shown.value?.pages ?? []).some(
    ({ page, visible, silent }) => page === 'foredeck' && visible && !silent,
  );
  return (
    <p class="helm-head">
      <strong>{trusted.value && now.value > 0 ? clock(now.value) : ''}</strong>
      <span>{trusted.value ? (open ? words.foredeckThere : words.foredeckNone) : ''}</span>
    </p>
  );
}
