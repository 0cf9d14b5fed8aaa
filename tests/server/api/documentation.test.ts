import { describe, expect, test } from 'vitest';
import { rig } from './help.ts';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

async function document() {
  const { ask } = await rig();
  const { status, json } = await ask('GET', 'openapi.json');
  expect(status).toBe(200);
  return json as { [key: string]: Json } & {
    openapi: string;
    paths: Record<
      string,
      Record<string, { responses: Record<string, Json>; summary: string; security?: Json }>
    >;
    components: { schemas: Record<string, { [key: string]: Json }> };
  };
}

function* within(value: Json, path = '#'): Generator<[string, Json]> {
  yield [path, value];
  if (value === null || typeof value !== 'object') return;
  for (const [key, inner] of Object.entries(value)) yield* within(inner, `${path}/${key}`);
}

/** Calls that anybody aboard may make, and calls that need the right to command; add yours. */
const LOOKS = [
  'get /state',
  'get /track',
  'get /check',
  'get /config',
  'get /nights',
  'get /nights/{id}',
  'get /nights/{id}/report',
  'get /nights/{id}/sentences',
  'get /nights/{id}/inputs',
  'get /nights/{id}/export',
  'get /places',
  'get /health',
  'get /metrics',
  'post /plan',
  'get /tide/stations',
  'get /tide/station',
  'post /pair',
  'delete /keys/own',
];
const COMMANDS = [
  'post /mark',
  'post /weigh/aweigh',
  'patch /nights/{id}',
  'post /nights/import',
  'patch /config',
  'post /check',
  'post /horn/test',
  'put /check/items',
  'post /weigh/undo-aweigh',
  'post /weigh/hold-wind',
  'patch /watch',
  'post /weigh',
  'delete /weigh',
  'post /signals',
  'post /alerts/{id}/acknowledge',
  'post /alerts/{id}/silence',
  'put /tidal-stream',
  'delete /tidal-stream',
  'put /tide',
  'delete /tide',
  'post /neighbours',
  'delete /neighbours/{id}',
  'get /keys',
  'post /keys',
  'delete /keys/{id}',
  'post /pairing',
  'delete /pairing',
];

describe('the OpenAPI document', () => {
  test('has every call, with a summary, and problem details among its answers', async () => {
    const { openapi, paths } = await document();
    expect(openapi).toMatch(/^3\.1/);
    const calls = Object.entries(paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method} ${path.replace(/^\/api\/v1/, '')}`),
    );
    expect(calls.sort()).toEqual([...LOOKS, ...COMMANDS].sort());
    for (const [path, methods] of Object.entries(paths)) {
      for (const [method, call] of Object.entries(methods)) {
        expect(call.summary, `${method} ${path}`).toMatch(/./);
        const answers = JSON.stringify(call.responses);
        expect(answers).toContain(
          '"application/problem+json":{"schema":{"$ref":"#/components/schemas/Problem"}}',
        );
        for (const status of Object.keys(call.responses))
          expect(status).toMatch(/^(?:[1-5]\d\d|[1-5]XX|default)$/);
      }
    }
  });

  test('no reference dangles, and the shapes that pages depend on have names', async () => {
    const whole = await document();
    const references = [...within(whole)]
      .filter(([path]) => path.endsWith('/$ref'))
      .map(([, target]) => String(target));
    expect(references.length).toBeGreaterThan(20);
    const dangling = references.filter((target) => {
      const parts = target.split('/').slice(1);
      return (
        parts.reduce<Json | undefined>(
          (at, part) => (at as Record<string, Json> | undefined)?.[part],
          whole,
        ) === undefined
      );
    });
    expect(dangling).toEqual([]);
    expect(Object.keys(whole.components.schemas)).toEqual(
      expect.arrayContaining([
        'State',
        'Vessel',
        'Watch',
        'Alert',
        'Mark',
        'Problem',
        'ServerMessage',
        'PageMessage',
      ]),
    );
  });

  test('every schema is one: typed, composed, referring, fixed or free; members that must be there exist', async () => {
    const { components } = await document();
    const faults: string[] = [];
    const check = (schema: Json, path: string): void => {
      if (schema === null || typeof schema !== 'object' || Array.isArray(schema)) {
        faults.push(`${path} is no schema`);
        return;
      }
      const { properties, required, items, anyOf, oneOf, allOf } = schema;
      if (required) {
        for (const name of required as string[])
          if (!(properties as Record<string, Json>)?.[name]) faults.push(`${path} requires ${name}`);
      }
      for (const [name, inner] of Object.entries((properties as Record<string, Json>) ?? {}))
        check(inner, `${path}/${name}`);
      if (items) check(items, `${path}/items`);
      for (const [index, inner] of [anyOf, oneOf, allOf].flatMap((list) => (list as Json[]) ?? []).entries())
        check(inner, `${path}/${index}`);
    };
    for (const [name, schema] of Object.entries(components.schemas)) check(schema, name);
    expect(faults).toEqual([]);
    const { State } = components.schemas;
    expect(State!.required).toEqual([
      'at',
      'report',
      'boat',
      'cable',
      'vessel',
      'watch',
      'neighbours',
      'alerts',
      'inputs',
      'notes',
      'pages',
    ]);
  });

  test('calls that command need the key, calls that look do not', async () => {
    const { paths } = await document();
    const locked = Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).flatMap(([method, call]) =>
        call.security ? [`${method} ${path.replace(/^\/api\/v1/, '')}`] : [],
      ),
    );
    expect(locked.sort()).toEqual([...COMMANDS].sort());
  });
});
