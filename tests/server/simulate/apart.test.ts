import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const room = new URL('../../../server/simulate/', import.meta.url).pathname;

test('the simulator shares no physics with what it tests: of shared/ it takes units, angles and the names of settings', () => {
  // The scripted crew in weighing/ steers by what hawse says, so it is on the other side; the boat's physics may not know it. The list of
  // anchorages names those in which a crew weighs: scenarios, no physics.
  const files = readdirSync(room).filter((name) => name.endsWith('.ts'));
  expect(files.length).toBeGreaterThan(15);
  const taken = files.flatMap((file) =>
    [
      ...readFileSync(join(room, file), 'utf8').matchAll(
        /^import (?!type)[^;]*from '(\.\.[^']+|\.\/weighing[^']*)'/gm,
      ),
    ].map((found) => found[1]!),
  );
  expect(taken.length).toBeGreaterThan(5);
  expect(
    taken.filter(
      (path) =>
        path !== './weighing/anchorages.ts' &&
        !/^\.\.\/\.\.\/shared\/(quantities\/|settings\.ts$)/.test(path),
    ),
  ).toEqual([]);
});
