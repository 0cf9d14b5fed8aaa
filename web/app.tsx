import { computed, effect } from '@preact/signals';
import { barred, shown } from './live.ts';
import { phonesPage } from './pages/phones.tsx';
import { pages } from './pages.ts';
import { AlertBar } from './parts/alerts/alertBar.tsx';
import { Announcer } from './parts/announcer.tsx';
import { Header } from './parts/header.tsx';
import { GapNote, LinkBanner } from './parts/linkBanner.tsx';
import { Bar } from './parts/nav/bar.tsx';
import { Standing } from './parts/phone/standing.tsx';
import { UpdateNote } from './parts/phone/update.tsx';
import { dimmer, palette } from './prefs.ts';
import { path } from './router.ts';
import { loss } from './sounding.ts';
import { words } from './words.ts';

/** A screen that may not even look is shown how it may. */
export const currentPage = () =>
  barred.value
    ? phonesPage
    : pages.find(({ path: own, id }) => own === path.value || `/${id}` === path.value);

/** The shell round every page: bands above, the page, alerts under the thumb. */
export function App() {
  const page = currentPage();
  if (page?.whole)
    return (
      <>
        <Header page={page} />
        <div class="whole">
          <page.View />
        </div>
        <Announcer />
      </>
    );
  return (
    <>
      <Header page={page} />
      <LinkBanner />
      <div class="scroll">
        <Standing />
        <GapNote />
        <UpdateNote />
        {page ? <page.View /> : <main class="instruments">{words.noSuchPage}</main>}
      </div>
      <AlertBar />
      <Bar page={page} />
      <Announcer />
    </>
  );
}

const BACKGROUND = { day: '#f6f4ec', night: '#000000' };

const urgent = computed(() =>
  shown.value?.alerts.some(
    ({ priority, state }) => priority === 'alarm' && state === 'active-unacknowledged',
  ),
);

effect(() => {
  const root = document.documentElement;
  const isDay = palette.value === 'day';
  root.dataset.palette = palette.value;
  meta('color-scheme', isDay ? 'light' : 'dark');
  meta('theme-color', BACKGROUND[palette.value]);
  // Whoever is woken must be able to read: an alarm takes the dimmer off.
  root.style.setProperty('--dim', isDay || urgent.value ? '1' : String(dimmer.value / 100));
});

function meta(name: string, content: string): void {
  document.querySelector(`meta[name=${name}]`)?.setAttribute('content', content);
}

effect(() => {
  const trouble = loss.value ? words.link.short : urgent.value && words.alerts.priority.alarm;
  const boat = shown.value?.boat.name;
  document.title = [trouble, currentPage()?.title, boat, words.product].filter(Boolean).join(' · ');
});
