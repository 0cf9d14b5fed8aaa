import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

// What a test waits for comes in milliseconds, and on a machine that does five other things in seconds. No test asserts a
// time; so the limits are far away, and only what never comes meets them.
const expect = { poll: { timeout: 30_000 } };

export default defineConfig({
  test: {
    coverage: { provider: 'v8', include: ['shared/**/*.ts'] },
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/{shared,server,house,web}/**/*.test.ts'],
          testTimeout: 180_000,
          hookTimeout: 180_000,
          expect,
          // Every core: left to itself vitest keeps one back, which on two is half.
          maxWorkers: Math.max(2, availableParallelism()),
        },
      },
      {
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 180_000,
          hookTimeout: 180_000,
          expect,
          globalSetup: ['tests/browser/once.ts'],
          // Most of their time these tests wait for the page, the boat or a sound; so more of them run than there are cores.
          maxWorkers: 3,
          // They keep nothing in modules but what every test is given anew (stage.ts), and loading the driver takes a second.
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
