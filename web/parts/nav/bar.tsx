import { computed } from '@preact/signals';
import { shown } from '../../live.ts';
import { type Page, pages } from '../../pages.ts';
import { follow } from '../../router.ts';
import { navWords } from '../../words/nav.ts';
import { MenuIcon } from '../icons.tsx';
import { Drawer } from './drawer.tsx';
import { PAGE_ICONS } from './icons.tsx';
import { drawerOpen } from './open.ts';

const weighing = computed(() => shown.value?.watch.phase === 'weighing');

const LAST = pages.some(({ id }) => id === 'logbook') ? 'logbook' : 'plan';

/** The pages one thumb away: on the way out the helm takes the place of the check that comes before it. */
const quick = computed(() =>
  ['watch', weighing.value ? 'weigh' : 'check', 'tide', LAST]
    .map((id) => pages.find((page) => page.id === id))
    .filter((page) => page !== undefined),
);

/** At the lower edge of a phone, at the left of a wide screen: always in the same place, so that a thumb finds it in the dark. */
export function Bar({ page }: { page: Page | undefined }) {
  const isQuick = quick.value.some((entry) => entry === page);
  return (
    <>
      <nav class="page-bar" aria-label={navWords.region}>
        {quick.value.map((entry) => (
          <a
            key={entry.id}
            href={entry.path}
            {...(entry === page && { 'aria-current': 'page' as const })}
            onClick={(event) => {
              follow(event);
              drawerOpen.value = false;
            }}
          >
            {PAGE_ICONS[entry.id]?.()}
            <span>{navWords.short[entry.id] ?? entry.title}</span>
          </a>
        ))}
        <button
          type="button"
          class={isQuick ? undefined : 'here'}
          aria-expanded={drawerOpen.value}
          onClick={() => {
            drawerOpen.value = !drawerOpen.value;
          }}
        >
          <MenuIcon />
          <span>
            {navWords.more}
            <span class="unseen">{navWords.moreHint}</span>
          </span>
        </button>
      </nav>
      {drawerOpen.value && <Drawer page={page} />}
    </>
  );
}
