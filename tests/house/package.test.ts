import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSync } from 'oxc-parser';
import { expect, test } from 'vitest';

/** What is packed; that it works once installed is tried by .ci/package.mjs, which takes a minute and a registry. */
const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as {
  bin: Record<string, string>;
  dependencies: Record<string, string>;
  optionalDependencies: Record<string, string>;
  engines: { node: string };
};
const packed = (
  JSON.parse(
    execFileSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }),
  ) as [{ files: { path: string }[] }]
)[0].files.map(({ path }) => path);

test('the package holds the command, the built daemon and pages, unit, example and docs, and nothing of the workshop', () => {
  expect(manifest.bin).toEqual({ hawse: 'server/hawse.mjs' });
  for (const path of [
    'server/hawse.mjs',
    'dist/server/cli.js',
    'dist/shared/engine.js',
    'dist/web/index.html',
    'server/hawse.service',
    'server/hawse.example.yaml',
    'README.md',
    'LICENSE',
    'docs/install.md',
    'docs/client.mjs',
  ])
    expect(packed).toContain(path);
  expect(packed.filter((path) => /^(tests|fixtures|\.ci|web|shared|node_modules|data)\//.test(path))).toEqual(
    [],
  );
});

test('what the daemon imports is installed without the tools of the workshop', () => {
  const run = new Set([...Object.keys(manifest.dependencies), ...Object.keys(manifest.optionalDependencies)]);
  const foreign = new Set<string>();
  for (const folder of ['server', 'shared'])
    for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
      if (!name.endsWith('.ts')) continue;
      const text = readFileSync(join(folder, name), 'utf8');
      const { module } = parseSync(name, text);
      const found = [
        ...module.staticImports
          .filter(({ entries }) => entries.length === 0 || entries.some(({ isType }) => !isType))
          .map(({ moduleRequest }) => moduleRequest.value),
        ...module.dynamicImports.map(({ moduleRequest }) =>
          text.slice(moduleRequest.start, moduleRequest.end).replace(/^['"]|['"]$/g, ''),
        ),
      ];
      for (const specifier of found)
        if (/^[@a-z]/.test(specifier) && !specifier.startsWith('node:')) foreign.add(specifier);
    }
  expect(foreign).toContain('serialport');
  const missing = [...foreign].filter((specifier) => {
    const parts = specifier.split('/');
    return !run.has(specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]!);
  });
  expect(missing).toEqual([]);
});

test('the serial library brings its binaries for the small computers of boats', () => {
  const prebuilds = 'node_modules/@serialport/bindings-cpp/prebuilds';
  for (const name of ['linux-arm64', 'linux-arm', 'linux-x64'])
    expect([name, existsSync(join(prebuilds, name))]).toEqual([name, true]);
  expect(readdirSync(join(prebuilds, 'linux-arm'))).toContain('@serialport+bindings-cpp.armv7.glibc.node');
});
