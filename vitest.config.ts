import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    coverage: { provider: 'v8', include: ['shared/**/*.ts'] },
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{shared,server,house}/**/*.test.ts'],
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          maxWorkers: 3,
          sequence: { groupOrder: 1 },
          globalSetup: ['tests/browser/once.ts'],
        },
      },
    ],
  },
});
