/** Stryker's settings; run.mjs adds the room. */
export default {
  testRunner: 'vitest',
  packageManager: 'npm',
  coverageAnalysis: 'perTest',
  // Mutants of tables that are made when a module loads would each run every test, and the compiler finds most of them.
  ignoreStatic: true,
  incremental: true,
  // Two cores are shared with whatever else runs.
  concurrency: 1,
  timeoutMS: 5_000,
  timeoutFactor: 2,
  tempDirName: '.stryker-tmp',
  // Stryker would rewrite tsconfig.json by a programming interface that TypeScript 7 no longer has; nothing here needs it.
  tsconfigFile: 'none',
  // What the tests of shared/ do not need is not copied.
  ignorePatterns: [
    '.ci',
    'dist',
    'docs',
    'fixtures',
    'server',
    'web',
    'reports',
    'coverage',
    'tests/{browser,looks,soak,torture,fuzz,bench,server}',
  ],
  reporters: ['json', 'progress-append-only', 'clear-text'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, reportScoreTable: true },
  allowEmpty: true,
};
