import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const note = readFileSync('docs/security.md', 'utf8');
const rows = note
  .split('## Threats')[1]!
  .split('## ')[0]!
  .split('\n')
  .filter((line) => line.startsWith('| '))
  .slice(2);

test('every threat of the note names a test that exists and has tests in it', () => {
  expect(rows.length).toBeGreaterThan(20);
  for (const row of rows) {
    const named = [
      ...row
        .split('|')
        .at(-2)!
        .matchAll(/`([^`]+)`/g),
    ].map(([, path]) => path!);
    expect([row, named.length > 0]).toEqual([row, true]);
    for (const path of named) {
      expect([path, existsSync(path)]).toEqual([path, true]);
      expect(readFileSync(path, 'utf8')).toMatch(/\btest(?:\.each)?\(/);
    }
  }
});

test('what is not held is told too', () => {
  expect(note.split('## What is not held')[1]!.match(/^- /gm)!.length).toBeGreaterThan(4);
});
