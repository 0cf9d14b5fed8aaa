import { computed } from '@preact/signals';
import { clock, zone } from '../format.ts';
import { now } from '../live.ts';
import type { Page } from '../pages.ts';
import { arming } from '../phone/arming.ts';
import { palette } from '../prefs.ts';
import { words } from '../words.ts';
import { MenuIcon, MoonIcon, SunIcon } from './icons.tsx';
import { Drawer } from './nav/drawer.tsx';
import { drawerOpen } from './nav/open.ts';
import { detailsOpen } from './phone/open.ts';
import { PhoneSign } from './phone/sign.tsx';
import { Standing } from './phone/standing.tsx';
import { SimulatedBand } from './simulatedBand.tsx';

/** Text that changes once a minute, so that what shows it is drawn once a minute. */
const time = computed(() => (now.value > 0 ? clock(now.value) : ''));
const zoneNow = computed(() => (time.value ? zone(now.peek()) : ''));

function Clock() {
  return (
    <p class="clock">
      {time.value && (
        <>
          <span>{time.value}</span>
          <span class="unit">{zoneNow.value}</span>
        </>
      )}
    </p>
  );
}

/** On pages that fill the screen there is no room for the bar of pages: its list opens from here. */
function MenuButton({ title }: { title: string }) {
  return (
    <button
      type="button"
      class="menu"
      aria-expanded={drawerOpen.value}
      onClick={() => {
        drawerOpen.value = !drawerOpen.value;
      }}
    >
      <MenuIcon />
      <span>{title}</span>
      <span class="unseen">{words.screen.menu}</span>
    </button>
  );
}

export function Header({ page }: { page: Page | undefined }) {
  return (
    <header>
      <SimulatedBand />
      <div class="top">
        {page?.whole ? (
          <MenuButton title={page.title} />
        ) : (
          <p class="menu">
            <span>{page?.title ?? words.product}</span>
          </p>
        )}
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
      {page?.whole && drawerOpen.value && <Drawer page={page} />}
    </header>
  );
}
