import { useEffect } from 'preact/hooks';
import { type Page, pages } from '../../pages.ts';
import { follow } from '../../router.ts';
import { navWords } from '../../words/nav.ts';
import { Screen } from '../screen.tsx';
import { drawerOpen } from './open.ts';

/** Every page, and what this screen is set to. Escape closes it. */
export function Drawer({ page }: { page: Page | undefined }) {
  useEffect(() => {
    const onKey = ({ key }: KeyboardEvent) => {
      if (key === 'Escape') drawerOpen.value = false;
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  return (
    <div class="drawer">
      <nav aria-label={navWords.all}>
        {pages.map((entry) => (
          <a
            key={entry.path}
            href={entry.path}
            {...(entry === page && { 'aria-current': 'page' as const })}
            onClick={(event) => {
              follow(event);
              drawerOpen.value = false;
            }}
          >
            {entry.title}
          </a>
        ))}
      </nav>
      <Screen />
    </div>
  );
}
