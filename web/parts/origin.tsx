import { shellTrouble } from '../phone/update.ts';
import { originWords as words } from '../words/horn.ts';

/**
 * What the browser withholds at this page's address, and the way to where it does not. Says nothing where nothing is missing.
 * A certificate error that was clicked away shows only in the browser's refusal to keep the pages.
 */
export function Origin() {
  const isUntrusted = location.protocol === 'https:' && shellTrouble.value === 'SecurityError';
  if (isSecureContext && !isUntrusted) return null;
  return (
    <section class="origin">
      <h2>{words.title}</h2>
      <p class="care">{isUntrusted ? words.untrusted : words.plain}</p>
      <p>
        <a href="/trust">{words.lead}</a>
      </p>
    </section>
  );
}
