import type { Page } from '../pages.ts';
import { Phones } from '../parts/access/phones.tsx';
import { accessWords } from '../words/access.ts';

export const phonesPage: Page = { id: 'phones', path: '/phones', title: accessWords.title, View: Phones };
