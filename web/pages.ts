import type { VNode } from 'preact';
import { foredeckPage } from './pages/foredeck.tsx';
import { instrumentsPage } from './pages/instruments.tsx';
import { phonesPage } from './pages/phones.tsx';
import { watchPage } from './pages/watch.tsx';
import { HelmHead } from './parts/helm/head.tsx';
import { late } from './parts/late.tsx';
import { checkWords } from './words/check.ts';
import { helmWords } from './words/helm.ts';
import { setupTitle } from './words/titles.ts';
import { words } from './words.ts';

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

/** Pages that nobody opens first, and heavy ones, are no part of the script that loads first. */
const planPage: Page = {
  id: 'plan',
  path: '/plan',
  title: words.pages.plan,
  View: late(async () => (await import('./pages/plan.tsx')).PlanPage),
};

const helmPage: Page = {
  id: 'weigh',
  path: '/weigh',
  title: helmWords.title,
  View: late(async () => (await import('./pages/weigh.tsx')).Helm),
  whole: HelmHead,
};

/** Looked at a few times a day. */
const tidePage: Page = {
  id: 'tide',
  path: '/tide',
  title: words.pages.tide,
  View: late(async () => (await import('./pages/tide.tsx')).TidePage),
};

/** Read when the night is over. */
const logbookPage: Page = {
  id: 'logbook',
  path: '/logbook',
  title: words.pages.logbook,
  View: late(async () => (await import('./pages/logbook.tsx')).LogbookPage),
};

const checkPage: Page = {
  id: 'check',
  path: '/check',
  title: checkWords.title,
  View: late(async () => (await import('./pages/check.tsx')).checkPage.View),
};

/** The first hour aboard. */
const setupPage: Page = {
  id: 'setup',
  path: '/setup',
  title: setupTitle,
  View: late(async () => (await import('./pages/setup.tsx')).SetupPage),
};

export const pages: readonly Page[] = [
  watchPage,
  planPage,
  tidePage,
  checkPage,
  helmPage,
  foredeckPage,
  logbookPage,
  instrumentsPage,
  phonesPage,
  setupPage,
];
