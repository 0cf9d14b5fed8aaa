import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { formatTag } from '../../../shared/sentences/tag.ts';

const HDT = '$GPHDT,274.07,T*03';
const MTW = '$INMTW,17.9,C*1B';
const VDM = '!AIVDM,1,1,,B,,0*25';
const TAG = formatTag(1_700_000_000.25, 'udp1');
const bare = (text: string) => text.replace(/\s/g, '');

describe('one line into pieces', () => {
  test.each<[string, string, string[]]>([
    ['one sentence', HDT, [HDT]],
    ['white space around it', ` \t${HDT}\r\n`, [HDT]],
    ['nothing', '', []],
    ['white space', ' \r\n\t', []],
    ['two glued (rgm3800.log)', `${HDT}${MTW}`, [HDT, MTW]],
    ['two glued, the second encapsulated', `${HDT}${VDM}`, [HDT, VDM]],
    ['a missing line feed', `${HDT}\r${MTW}\r`, [HDT, MTW]],
    ['a torn one before a good one', `$IIHDT,12${HDT}`, ['$IIHDT,12', HDT]],
    ['torn in its address', `$GP${HDT}`, ['$GP', HDT]],
    ['leading noise', `\u0000x17.9,C*1B ${HDT}`, ['\u0000x17.9,C*1B', HDT]],
    ['only noise', '# Name: a log', ['# Name: a log']],
    ['a torn one behind a good one', `${HDT}$GPR`, [HDT, '$GPR']],
    ['a TAG block and its sentence', `${TAG}${HDT}`, [`${TAG}${HDT}`]],
    ['two TAG blocks and their sentence', `${TAG}${TAG}${HDT}`, [`${TAG}${TAG}${HDT}`]],
    ['two tagged sentences glued', `${TAG}${HDT}${TAG}${MTW}`, [`${TAG}${HDT}`, `${TAG}${MTW}`]],
    ['a tagged sentence behind a bare one', `${HDT}${TAG}${MTW}`, [HDT, `${TAG}${MTW}`]],
    ['a tagged sentence behind noise', `noise${TAG}${MTW}`, ['noise', `${TAG}${MTW}`]],
    ['a TAG block before noise', `${TAG}noise${HDT}`, [`${TAG}noise`, HDT]],
    ['a TAG block torn off behind a good sentence', `${HDT}\\s:udp1,c:17`, [HDT, '\\s:udp1,c:17']],
    ['a TAG block without a sentence', TAG, [TAG]],
    ['a TAG block without an end', `\\s:udp1,c:17${HDT}`, ['\\s:udp1,c:17', HDT]],
    ['a lone backslash before a sentence', `\\${HDT}`, ['\\', HDT]],
    ['a backslash in a text is not a TAG block', `$GPTXT,C\\D\\${HDT}`, ['$GPTXT,C\\D\\', HDT]],
    ['start characters alone', '$$!!', ['$$!!']],
    [
      'start characters in a text',
      '$RAALR,,001,A,A,Fire! Costs 5$, now*00',
      ['$RAALR,,001,A,A,Fire! Costs 5$, now*00'],
    ],
  ])('%s', (_, line, pieces) => {
    expect(splitLine(line)).toEqual(pieces);
  });

  test('both glued sentences are decoded, and the good tail of a torn one', () => {
    const ids = (line: string) =>
      splitLine(line).map((piece) => {
        const decoded = decode(piece, { requireChecksum: true });
        return decoded.ok ? decoded.id : decoded.reason;
      });
    expect(ids(`${HDT}${MTW}`)).toEqual(['HDT', 'MTW']);
    expect(ids('$IIHDT,12$IIHDT,200.0,T*20')).toEqual(['checksum', 'HDT']);
    expect(ids(`noise${HDT}`)).toEqual(['malformed', 'HDT']);
  });
});

const sentence = fc
  .tuple(fc.constantFrom('$', '!'), fc.constantFrom('GPHDT,1,T', 'AIVDM,1,1,,B,,0', 'IITXT,a!b$c', 'PGRME,1'))
  .map(([start, body]) => withChecksum(start + body));
const fragment = fc.oneof(
  sentence,
  sentence,
  fc.constantFrom('$', '!', '\\', '*', '*1B', ':', ' ', '\r\n', 'GPHDT,', '\\s:a*00\\', TAG, '\u0000', 'x'),
  fc.string({ unit: 'binary', maxLength: 12 }),
);
const line = fc.array(fragment, { maxLength: 12 }).map((parts) => parts.join(''));

describe('any line', () => {
  test('joined again the pieces are the line, but for white space', () => {
    fc.assert(
      fc.property(line, (text) => {
        expect(bare(splitLine(text).join(''))).toBe(bare(text));
      }),
      { numRuns: 3000, seed: 1 },
    );
  });

  test('no piece is blank, and a line that is not blank has one', () => {
    fc.assert(
      fc.property(line, (text) => {
        const pieces = splitLine(text);
        expect(pieces.every((piece) => piece.trim() !== '')).toBe(true);
        expect(pieces.length > 0).toBe(text.trim() !== '');
      }),
      { numRuns: 3000, seed: 2 },
    );
  });

  test('whole sentences come out whole, whatever stands between them', () => {
    const noise = fc.stringMatching(/^[a-z0-9,.*: ]{0,9}$/);
    fc.assert(
      fc.property(fc.array(fc.tuple(noise, sentence), { maxLength: 6 }), (parts) => {
        const pieces = splitLine(parts.map(([before, whole]) => before + whole).join(''));
        const found = pieces
          .filter((piece) => /^[$!]/.test(piece))
          .map((piece) => piece.replace(/(\*..).*/, '$1'));
        expect(found).toEqual(parts.map(([, whole]) => whole));
      }),
      { numRuns: 2000, seed: 3 },
    );
  });
});

test('a long line costs in proportion to its length: the pieces of a megabyte are found', () => {
  const many = 50_000;
  for (const unit of ['$', '!', '\\', '$GPHDT', '\\:', '\\s:a\\', '*03\\', '$GPHDT,\\', 'x'])
    expect(bare(splitLine(unit.repeat(many)).join('')).length).toBe(unit.length * many);
  expect(splitLine(HDT.repeat(many)).length).toBe(many);
  expect(splitLine(`${TAG}${HDT}`.repeat(many)).length).toBe(many);
  expect(splitLine(`\\${'$GPHDT,1\\'.repeat(many)}`).length).toBe(many + 1);
});
