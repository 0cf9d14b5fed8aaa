import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'oxc-parser';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** What each room may import beside itself. A room is the longest prefix here that fits a module's path. */
const WALLS: Record<string, string[]> = {
  'shared/quantities': [],
  'shared/earth': ['shared/quantities'],
  'shared/cable': ['shared/quantities', 'shared/settings'],
  'shared/water': ['shared/quantities', 'shared/earth'],
  'shared/plan': ['shared/quantities', 'shared/earth', 'shared/cable', 'shared/water', 'shared/settings'],
  'shared/sentences': ['shared/quantities'],
  'shared/vessel': [
    'shared/quantities',
    'shared/earth',
    'shared/water',
    'shared/cable',
    'shared/sentences',
    'shared/settings',
  ],
  'shared/ais': ['shared/quantities', 'shared/sentences'],
  'shared/neighbours': [
    'shared/quantities',
    'shared/earth',
    'shared/cable',
    'shared/sentences',
    'shared/ais',
    'shared/alerts',
    'shared/events',
  ],
  'shared/soundings': ['shared/quantities', 'shared/earth', 'shared/vessel', 'shared/settings'],
  'shared/tidal-stream': ['shared/quantities', 'shared/water', 'shared/events'],
  'shared/lee': ['shared/quantities', 'shared/earth'],
  'shared/tides': ['shared/quantities', 'shared/water', 'shared/vessel', 'shared/alerts', 'shared/events'],
  'shared/alerts': ['shared/quantities', 'shared/events'],
  'shared/watch': [
    'shared/quantities',
    'shared/earth',
    'shared/cable',
    'shared/water',
    'shared/sentences',
    'shared/vessel',
    'shared/alerts',
    'shared/settings',
    'shared/commands',
    'shared/events',
  ],
  'shared/weigh': [
    'shared/quantities',
    'shared/earth',
    'shared/cable',
    'shared/water',
    'shared/sentences',
    'shared/vessel',
    'shared/alerts',
    'shared/settings',
    'shared/commands',
    'shared/events',
  ],
  'shared/logbook': [
    'shared/quantities',
    'shared/earth',
    'shared/cable',
    'shared/water',
    'shared/vessel',
    'shared/watch',
    'shared/weigh',
    'shared/alerts',
    'shared/settings',
    'shared/commands',
    'shared/events',
    'shared/input',
    'shared/engine',
    'shared/hearing',
    'shared/inputs',
  ],
  'shared/recording': ['shared/sentences'],
  'shared/fitting': ['shared/quantities', 'shared/earth', 'shared/vessel', 'shared/settings'],
  'shared/settings': ['shared/quantities'],
  shared: ['shared'],
  'server/intake': ['shared'],
  'server/journal': ['shared'],
  'server/logbook': ['shared'],
  'server/access': ['shared'],
  'server/api': ['shared'],
  'server/raise': ['shared'],
  'server/tls': [],
  'server/tide-stations': ['shared'],
  'server/simulate': ['shared'],
  'server/config': ['shared'],
  'server/listen': ['shared'],
  'server/supervise': ['shared'],
  server: ['shared', 'server'],
  web: ['shared'],
};

/** Only these may pull a package from outside, or nothing at all, into shared/. */
const PACKAGES_IN_SHARED = ['geographiclib-geodesic', 'magvar', '@neaps/tide-predictor', 'zod'];
const HIDDEN_INPUTS =
  /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bperformance\.now\b|\bprocess\.|\bsetTimeout\b|\bsetInterval\b/;

interface Module {
  path: string;
  text: string;
  imports: { specifier: string; typeOnly: boolean }[];
}

function sources(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|tsx)$/.test(name))
    .map((name) => join(folder, name));
}

function read(path: string): Module {
  const text = readFileSync(join(root, path), 'utf8');
  const { module, errors } = parseSync(path, text);
  expect(errors.map((error) => `${path}: ${error.message}`)).toEqual([]);
  const fixed = module.staticImports.map((found) => ({
    specifier: found.moduleRequest.value,
    typeOnly: found.entries.length > 0 && found.entries.every((entry) => entry.isType),
  }));
  const passedOn = module.staticExports.flatMap((found) =>
    found.entries.flatMap((entry) =>
      entry.moduleRequest ? [{ specifier: entry.moduleRequest.value, typeOnly: entry.isType }] : [],
    ),
  );
  const late = module.dynamicImports.map((found) => ({
    specifier: text.slice(found.moduleRequest.start, found.moduleRequest.end).replace(/^['"]|['"]$/g, ''),
    typeOnly: false,
  }));
  return { path, text, imports: [...fixed, ...passedOn, ...late] };
}

const modules = ['shared', 'server', 'web'].flatMap(sources).map(read);
const rooms = Object.keys(WALLS).sort((a, b) => b.length - a.length);
const roomOf = (path: string) => rooms.find((room) => path === `${room}.ts` || path.startsWith(`${room}/`));
const ofOurs = (module: Module) =>
  module.imports
    .filter(({ specifier }) => specifier.startsWith('.'))
    .map((found) => ({ ...found, target: normalize(join(dirname(module.path), found.specifier)) }));

describe('the walls between rooms', () => {
  test('the check sees the modules: every file on disk, and edges that are known to exist', () => {
    expect(modules.length).toBeGreaterThan(40);
    const edges = modules.flatMap((module) =>
      ofOurs(module).map(({ target }) => `${module.path} → ${target}`),
    );
    expect(edges).toContain('shared/engine.ts → shared/vessel/vessel.ts');
    expect(edges).toContain('server/cli.ts → server/commands/replay.ts');
    expect(edges.some((edge) => edge.startsWith('web/'))).toBe(true);
    const known = new Set(modules.map((module) => module.path));
    const dangling = modules.flatMap((module) =>
      ofOurs(module)
        .filter(({ target }) => /\.tsx?$/.test(target) && !known.has(target))
        .map(({ target }) => `${module.path} → ${target}`),
    );
    expect(dangling).toEqual([]);
  });

  test('each room imports only what house.md allows', () => {
    const broken: string[] = [];
    for (const module of modules) {
      const room = roomOf(module.path);
      if (!room) throw new Error(`${module.path} belongs to no room`);
      for (const { target } of ofOurs(module)) {
        const other = roomOf(target);
        const allowed =
          other === room ||
          WALLS[room]!.some((name) => target === `${name}.ts` || target.startsWith(`${name}/`));
        if (!allowed) broken.push(`${module.path} may not import ${target}`);
      }
    }
    expect(broken).toEqual([]);
  });

  test('shared/ reads no clock, file, random number or environment, and pulls in no other package', () => {
    const broken: string[] = [];
    for (const module of modules.filter(({ path }) => path.startsWith('shared/'))) {
      const code = module.text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
      const hidden = HIDDEN_INPUTS.exec(code);
      if (hidden) broken.push(`${module.path} uses ${hidden[0]}`);
      for (const { specifier } of module.imports.filter((found) => !found.specifier.startsWith('.'))) {
        if (!PACKAGES_IN_SHARED.includes(specifier)) broken.push(`${module.path} imports ${specifier}`);
      }
    }
    expect(broken).toEqual([]);
  });

  test('pages take from shared/ only types, quantities, words and the chain table', () => {
    // The cautions are words: one wording for both pages and the docs. The cable from the side is drawn from what the boat tells, as a
    // catenary must be: it is tested there, and loaded late. The worker of the logbook page is no page: it lives recorded
    // nights again with the very engine that kept the watch, beside the page, and feeds nothing that watches now. No page may
    // reckon for itself what the boat tells, and none may import the worker but as a worker.
    const broken: string[] = [];
    for (const module of modules.filter(({ path }) => path.startsWith('web/'))) {
      const { path } = module;
      for (const { target, typeOnly } of ofOurs(module)) {
        if (target.startsWith('web/review/worker/') && !path.startsWith('web/review/worker/'))
          broken.push(`${path} imports ${target}`);
        const fine =
          typeOnly ||
          !target.startsWith('shared/') ||
          path.startsWith('web/review/worker/') ||
          /^shared\/(quantities\/|signals\.ts$|phone\.ts$|access\.ts$|cable\/(chain|side)\.ts$|weigh\/cautions\.ts$)/.test(
            target,
          );
        if (!fine) broken.push(`${path} imports ${relative('.', target)} at run time`);
      }
    }
    expect(broken).toEqual([]);
  });

  test('no module imports itself in a circle', () => {
    const graph = new Map(
      modules.map((module) => [
        module.path,
        ofOurs(module)
          .filter(({ typeOnly }) => !typeOnly)
          .map(({ target }) => target),
      ]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const walk = (path: string, trail: string[]): void => {
      if (trail.includes(path)) {
        circles.push([...trail.slice(trail.indexOf(path)), path].join(' → '));
        return;
      }
      if (done.has(path)) return;
      for (const next of graph.get(path) ?? []) walk(next, [...trail, path]);
      done.add(path);
    };
    for (const path of graph.keys()) walk(path, []);
    expect(circles).toEqual([]);
  });
});
