import { useSignal } from '@preact/signals';
import { clock, zone } from '../format.ts';
import { now } from '../live.ts';
import { type Page, pages } from '../pages.ts';
import { arming } from '../phone/arming.ts';
import { palette } from '../prefs.ts';
import { follow } from '../router.ts';
import { words } from '../words.ts';
import { MenuIcon, MoonIcon, SunIcon } from './icons.tsx';
import { detailsOpen } from './phone/open.ts';
import { PhoneSign } from './phone/sign.tsx';
import { Standing } from './phone/standing.tsx';
import { Screen } from './screen.tsx';
import { SimulatedBand } from './simulatedBand.tsx';

function Clock() {
  return (
    <p class="clock">
      {now.value > 0 && (
        <>
          <span>{clock(now.value)}</span>
          <span class="unit">{zone(now.value)}</span>
        </>
      )}
    </p>
  );
}

export function Header({ page }: { page: Page | undefined }) {
  const open = useSignal(false);
  return (
    <header>
      <SimulatedBand />
      <div class="top">
        <button
          type="button"
          class="menu"
          aria-expanded={open.value}
          onClick={() => {
            open.value = !open.value;
          }}
        >
          <MenuIcon />
          <span>{page?.title ?? words.product}</span>
          <span class="unseen">{words.screen.menu}</span>
        </button>
        {page?.whole ? <page.whole /> : <Clock />}
        <PhoneSign />
        <button
          type="button"
          aria-label={palette.value === 'day' ? words.screen.toNight : words.screen.toDay}
          onClick={() => {
            palette.value = palette.value === 'day' ? 'night' : 'day';
          }}
        >
          {palette.value === 'day' ? <MoonIcon /> : <SunIcon />}
        </button>
      </div>
      {page?.whole && (detailsOpen.value || arming.value !== 'idle') && <Standing />}
      {open.value && (
        <div class="drawer">
          <nav aria-label={words.screen.pages}>
            {pages.map((entry) => (
              <a
                key={entry.path}
                href={entry.path}
                {...(entry === page && { 'aria-current': 'page' as const })}
                onClick={(event) => {
                  follow(event);
                  open.value = false;
                }}
              >
                {entry.title}
              </a>
            ))}
          </nav>
          <Screen />
        </div>
      )}
    </header>
  );
}
