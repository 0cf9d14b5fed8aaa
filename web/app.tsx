import { effect } from '@preact/signals';
import { shown } from './live.ts';
import { pages } from './pages.ts';
import { AlertBar } from './parts/alerts/alertBar.tsx';
import { Announcer } from './parts/announcer.tsx';
import { Header } from './parts/header.tsx';
import { GapNote, LinkBanner } from './parts/linkBanner.tsx';
import { SoundStrip } from './parts/soundStrip.tsx';
import { dimmer, palette } from './prefs.ts';
import { path } from './router.ts';
import { words } from './words.ts';

export const currentPage = () =>
  pages.find(({ path: own, id }) => own === path.value || `/${id}` === path.value);

/** The shell round every page: bands above, the page, alerts under the thumb. */
export function App() {
  const page = currentPage();
  return (
    <>
      <Header page={page} />
      <LinkBanner />
      <div class="scroll">
        <SoundStrip />
        <GapNote />
        {page ? <page.View /> : <main class="instruments">{words.noSuchPage}</main>}
      </div>
      <AlertBar />
      <Announcer />
    </>
  );
}

const BACKGROUND = { day: '#f6f4ec', night: '#000000' };

effect(() => {
  const root = document.documentElement;
  root.dataset.palette = palette.value;
  document
    .querySelector('meta[name=color-scheme]')
    ?.setAttribute('content', palette.value === 'day' ? 'light' : 'dark');
  document.querySelector('meta[name=theme-color]')?.setAttribute('content', BACKGROUND[palette.value]);
  const urgent = shown.value?.alerts.some(
    ({ priority, state }) => priority === 'alarm' && state === 'active-unacknowledged',
  );
  // Whoever is woken must be able to read: an alarm takes the dimmer off.
  root.style.setProperty('--dim', palette.value === 'night' && !urgent ? String(dimmer.value / 100) : '1');
});

effect(() => {
  const boat = shown.value?.boat.name;
  document.title = [currentPage()?.title, boat, words.product].filter(Boolean).join(' · ');
});
