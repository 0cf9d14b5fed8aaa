import type { VNode } from 'preact';
import { checkPage } from './pages/check.tsx';
import { foredeckPage } from './pages/foredeck.tsx';
import { instrumentsPage } from './pages/instruments.tsx';
import { phonesPage } from './pages/phones.tsx';
import { planPage } from './pages/plan.tsx';
import { watchPage } from './pages/watch.tsx';

/** A page is one file in pages/ and one line here. */
export interface Page {
  /** What the boat calls it when she lists the open pages. */
  id: string;
  path: string;
  title: string;
  View: () => VNode | null;
  /** Fills the screen, tells of link and alerts itself and does not scroll; this stands in the place of the clock. */
  whole?: () => VNode | null;
}

export const pages: readonly Page[] = [
  watchPage,
  planPage,
  checkPage,
  foredeckPage,
  instrumentsPage,
  phonesPage,
];
