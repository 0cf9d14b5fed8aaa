/**
 * Mutation testing of one room: `npm run mutate -- shared/alerts`, or of some of its files: `npm run mutate -- shared/watch
 * circle.ts 'drag/*.ts'`. Prints the survivors and the score; what was tested before and has not changed is not tested again
 * (reports/mutation, not in git).
 */
import { Stryker } from '@stryker-mutator/core';
import settings from './stryker.config.mjs';

const [room, ...files] = process.argv.slice(2);
if (!/^shared\/[a-z-]+$/.test(room ?? ''))
  throw new Error('Which room? For instance: npm run mutate -- shared/alerts');

// In the alerts strings are states, in the other rooms they are words for people.
const name = room.slice('shared/'.length);
await new Stryker({
  ...settings,
  mutate: (files.length > 0 ? files : ['**/*.ts']).map((file) => `${room}/${file}`),
  mutator: { excludedMutations: name === 'alerts' ? [] : ['StringLiteral'] },
  vitest: { configFile: 'tests/mutation/vitest.config.ts', dir: `tests/shared/${name}` },
  incrementalFile: `reports/mutation/${name}-incremental.json`,
  jsonReporter: { fileName: `reports/mutation/${name}.json` },
}).runMutationTest();
