import { defineConfig } from 'vitest/config';

/**
 * What a mutant meets: the tests of one room (run.mjs names the folder), each quick. The recorded nights are left out: they are
 * not there in Stryker's copy of the tree, and a mutant would cost seconds with them.
 */
export default defineConfig({
  test: {
    include: ['**/*.test.ts'],
    exclude: ['**/recorded.test.ts', '**/watch/track.test.ts'],
    testTimeout: 60_000,
  },
});
