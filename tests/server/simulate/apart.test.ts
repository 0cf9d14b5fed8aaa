import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const room = new URL('../../../server/simulate/', import.meta.url).pathname;

test('the simulator shares no physics with what it tests: of shared/ it takes units, angles and the names of settings', () => {
  const files = readdirSync(room);
  expect(files.length).toBeGreaterThan(15);
  const taken = files.flatMap((file) =>
    [...readFileSync(join(room, file), 'utf8').matchAll(/from '(\.\.[^']+)'/g)].map((found) => found[1]!),
  );
  expect(taken.length).toBeGreaterThan(5);
  expect(taken.filter((path) => !/^\.\.\/\.\.\/shared\/(quantities\/|settings\.ts$)/.test(path))).toEqual([]);
});
