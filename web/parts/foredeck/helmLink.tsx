import { age } from '../../format.ts';
import { now } from '../../live.ts';
import { foredeckWords as words } from '../../words/foredeck.ts';
import { type Helm, helm } from './helm.ts';

/** In the head of the page: is anybody at the helm who sees what is signalled? */
export function HelmLink() {
  // Counts on by this device's clock while the boat is silent.
  now.value;
  const is = helm.value;
  const [what, detail] = inWords(is);
  return (
    <p class={`helm-link ${is.is}`} role="status" aria-label={words.helm.label}>
      <strong>{what}</strong>
      <span>{detail}</span>
    </p>
  );
}

function inWords(is: Helm): [string, string] {
  const { helm: say } = words;
  switch (is.is) {
    case 'calling':
      return [say.calling, ''];
    case 'no-link':
      return [say.noLink, say.noLinkWhy(age((Date.now() - is.since) / 1000))];
    case 'none':
      return [say.none, say.noneWhy];
    case 'hidden':
      return [say.hidden, is.name];
    case 'no-key':
      return [say.none, say.noKey];
    case 'sees':
      return [say.sees, is.name];
  }
}
