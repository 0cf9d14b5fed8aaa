import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { edit, type Path, type Written } from '../../../server/config/edit.ts';

const EXAMPLE = readFileSync('server/hawse.example.yaml', 'utf8');
const at = (text: string, path: Path): unknown =>
  path.reduce<unknown>((here, step) => (here as Record<string, unknown> | undefined)?.[step], parse(text));

/** Lines of the one that are not in the other, in order: by the longest common beginning and end. */
function differing(a: string, b: string): { gone: string[]; come: string[] } {
  const [one, other] = [a.split('\n'), b.split('\n')];
  let head = 0;
  while (head < one.length && head < other.length && one[head] === other[head]) head++;
  let tail = 0;
  while (tail < one.length - head && tail < other.length - head && one.at(-1 - tail) === other.at(-1 - tail))
    tail++;
  return { gone: one.slice(head, one.length - tail), come: other.slice(head, other.length - tail) };
}

const KEYS: Path[] = [
  ['boat', 'name'],
  ['boat', 'hull'],
  ['boat', 'length'],
  ['boat', 'mmsi'],
  ['boat', 'roller', 'height'],
  ['boat', 'antenna', 'aftOfRoller'],
  ['boat', 'antenna', 'toStarboard'],
  ['boat', 'sounder', 'belowWaterline'],
  ['boat', 'windage', 'area'],
  ['boat', 'displacement'],
  ['cable', 'size'],
  ['cable', 'massPerMetre'],
  ['cable', 'rope'],
  ['cable', 'veered'],
  ['watch', 'margin'],
  ['watch', 'windAbove'],
  ['watch', 'depthAbove'],
  ['watch', 'deviation'],
  ['weigh', 'windlassRate'],
  ['server', 'port'],
  ['server', 'names'],
];
const value = fc.oneof(
  fc.double({ min: -500, max: 500, noNaN: true }).map((number) => Math.round(number * 100) / 100 + 0),
  fc.constantFrom(
    '25 kn',
    '42 ft',
    '10 mm',
    'two words',
    'yes',
    '12',
    'a: b',
    '# no comment',
    "it's",
    '-',
    '"',
  ),
  fc.constantFrom(
    [],
    [
      [0, -2.5],
      [90, 1],
    ],
  ),
);

describe('one value of hawse.yaml is changed', () => {
  test('any key to any value: it says so, every other line stays, comments included', () => {
    fc.assert(
      fc.property(fc.constantFrom(...KEYS), value, (path, told) => {
        const changed = edit(EXAMPLE, path, told as Written);
        expect(at(changed, path)).toEqual(told);
        const { gone, come } = differing(EXAMPLE, changed);
        expect(gone.length).toBeLessThanOrEqual(1);
        // A section that was not there needs a line of its own.
        expect(come.length).toBeLessThanOrEqual(gone.length === 1 ? 1 : 2);
        const comment = /\s#.*$/.exec(gone[0] ?? '')?.[0];
        if (comment) expect(come[0]!.endsWith(comment)).toBe(true);
      }),
      { numRuns: 150 },
    );
  });

  test('any key unset: its lines become comments, every other line stays', () => {
    for (const path of KEYS) {
      const changed = edit(EXAMPLE, path, undefined);
      const had = at(EXAMPLE, path) !== undefined;
      expect(at(changed, path)).toBeUndefined();
      if (!had) expect(changed).toBe(EXAMPLE);
      const { gone, come } = differing(EXAMPLE, changed);
      expect(come.map((line) => line.replace(/^(\s*)# /, '$1'))).toEqual(gone);
    }
  });

  test('many changes after one another still say what they should, and keep every comment', () => {
    const comments = (text: string) => text.match(/#.*$/gm) ?? [];
    const change = fc.tuple(fc.constantFrom(...KEYS), fc.option(value, { nil: undefined }));
    fc.assert(
      fc.property(fc.array(change, { maxLength: 8 }), (changes) => {
        let text = EXAMPLE;
        const told = new Map<string, unknown>();
        for (const [path, one] of changes) {
          text = edit(text, path, one as Written);
          told.set(path.join('.'), one);
        }
        for (const [key, one] of told) expect(at(text, key.split('.'))).toEqual(one);
        for (const comment of comments(EXAMPLE)) expect(text).toContain(comment);
      }),
      { numRuns: 30 },
    );
  });

  test.each([
    ['a file of comments only', '# nothing yet\n', ['boat', 'length'], '# nothing yet\nboat:\n  length: 9\n'],
    ['an empty file', '', ['boat', 'length'], 'boat:\n  length: 9\n'],
    [
      'a section without a key',
      'cable: # none yet\n',
      ['cable', 'length'],
      'cable: # none yet\n  length: 9\n',
    ],
    ['a key without a value', 'cable:\n  length: # ?\n', ['cable', 'length'], 'cable:\n  length: 9 # ?\n'],
    ['no line end at the end', 'cable:\n  rope: 1', ['cable', 'length'], 'cable:\n  rope: 1\n  length: 9\n'],
    [
      'line ends of Windows',
      'cable:\r\n  rope: 1\r\n',
      ['cable', 'length'],
      'cable:\r\n  rope: 1\r\n  length: 9\r\n',
    ],
    [
      'four spaces',
      'cable:\n    rope: 1\n# x\n',
      ['cable', 'length'],
      'cable:\n    rope: 1\n    length: 9\n# x\n',
    ],
    [
      'in one line',
      'boat: {length: 8,  beam: 3} # hers\n',
      ['boat', 'length'],
      'boat: {length: 9,  beam: 3} # hers\n',
    ],
    [
      'in a list',
      'instruments:\n  - udp: 1 # a\n  - udp: 2\n',
      ['instruments', 1, 'udp'],
      'instruments:\n  - udp: 1 # a\n  - udp: 9\n',
    ],
  ] as [string, string, Path, string][])('%s', (_name, text, path, wanted) => {
    expect(edit(text, path, 9)).toBe(wanted);
  });

  test('what cannot be done line by line is done with comments kept', () => {
    const changed = edit('# mine\nboat: { length: 8 } # hers\n', ['boat', 'beam'], 3);
    expect(parse(changed)).toEqual({ boat: { length: 8, beam: 3 } });
    expect(changed).toContain('# mine');
    expect(changed).toContain('# hers');
  });

  test('the last key of a section takes the section with it', () => {
    expect(
      edit('boat:\n  windage:\n    area: 22 # guessed\n  draft: 2\n', ['boat', 'windage', 'area'], undefined),
    ).toBe('boat:\n  # windage:\n  #   area: 22 # guessed\n  draft: 2\n');
  });

  test('a value that stands for several is left to a hand', () => {
    const text = 'boat: { length: &n 8, beam: *n }\n';
    expect(() => edit(text, ['boat', 'length'], 9)).toThrow(/by hand/);
  });

  test('what is no YAML is not touched', () => {
    expect(() => edit('boat: [', ['boat', 'length'], 9)).toThrow(/no YAML/);
  });
});
