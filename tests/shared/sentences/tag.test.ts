import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checksum, checksumDigits } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { splitLine } from '../../../shared/sentences/split.ts';
import { formatTag, readTags } from '../../../shared/sentences/tag.ts';

const HDT = '$GPHDT,274.07,T*03';
/** A TAG block around some content, with its checksum. */
const block = (content: string) => `\\${content}*${checksumDigits(checksum(content, 0, content.length))}\\`;
const tagOf = (content: string) => {
  const read = readTags(block(content), true);
  if (!read.ok) throw new Error(read.why);
  return read.tag;
};

describe('TAG blocks read', () => {
  test('published, from a shore station (gpsd AIVDM.adoc): both checksums hold', () => {
    const line =
      '\\g:1-2-73874,n:157036,s:r003669945,c:1241544035*4A\\!AIVDM,1,1,,B,15N4cJ`005Jrek0H@9n`DW5608EP,0*13';
    expect(splitLine(line)).toEqual([line]);
    expect(decode(line, { requireChecksum: true })).toMatchObject({
      ok: true,
      id: 'VDM',
      tag: { at: 1_241_544_035, source: 'r003669945' },
    });
  });

  test('published, with keys that the standard does not know (libais): they are passed over', () => {
    expect(tagOf('s:rORBCOMM104,q:u,c:1418172113,T:2014-12-10 00.41.53')).toEqual({
      at: 1_418_172_113,
      source: 'rORBCOMM104',
    });
  });

  test('the time is seconds, seconds with decimals, or whole milliseconds', () => {
    expect(tagOf('c:1700000000')).toEqual({ at: 1_700_000_000 });
    expect(tagOf('c:1700000000.250')).toEqual({ at: 1_700_000_000.25 });
    expect(tagOf('c:1700000000.123456')).toEqual({ at: 1_700_000_000.123456 });
    expect(tagOf('c:1700000000250')).toEqual({ at: 1_700_000_000.25 });
  });

  test('a time that is no number is unknown', () => {
    for (const time of ['c:', 'c:x', 'c:1e9', 'c:-5', 'c:NaN', 'c', 'cc:5'])
      expect([time, tagOf(`${time},s:a`)]).toEqual([time, { source: 'a' }]);
    expect(tagOf('s:')).toEqual({});
  });

  test('of several blocks the first to say something holds', () => {
    const line = `${block('s:udp1,c:1700000000.250')}${block('s:gateway,c:5,g:1-1-1')}${HDT}`;
    expect(decode(line, { requireChecksum: true })).toMatchObject({
      ok: true,
      tag: { at: 1_700_000_000.25, source: 'udp1' },
    });
    expect(decode(`${block('g:1-1-1')}${block('s:gateway')}${HDT}`, { requireChecksum: true })).toMatchObject(
      {
        ok: true,
        tag: { source: 'gateway' },
      },
    );
  });

  test.each([
    ['wrong', '\\s:udp1,c:5*00\\', 'checksum'],
    ['missing', '\\s:udp1,c:5\\', 'checksum'],
    ['of one digit', '\\s:udp1,c:5*1\\', 'checksum'],
    ['of a block without an end', '\\s:udp1,c:5*41', 'malformed'],
  ])('checksum %s: the line is refused', (_, tag, reason) => {
    expect(decode(`${tag}${HDT}`, { requireChecksum: true })).toMatchObject({ ok: false, reason });
  });

  test('where checksums are not required a block may lack it, but not carry a wrong one', () => {
    const read = (tag: string) => decode(`${tag}${HDT}`, { requireChecksum: false });
    expect(read('\\s:udp1\\')).toMatchObject({ ok: true, tag: { source: 'udp1' } });
    expect(read('\\s:udp1*00\\')).toMatchObject({ ok: false, reason: 'checksum' });
    expect(read('\\s:udp1*1\\')).toMatchObject({ ok: false, reason: 'checksum' });
    expect(read('\\\\')).toMatchObject({ ok: true, tag: {} });
  });

  test('a refused sentence keeps its tag, and a block without a sentence is malformed', () => {
    expect(decode(`${block('s:udp1')}noise`, { requireChecksum: true })).toEqual({
      ok: false,
      reason: 'malformed',
      why: 'does not begin with $ or !',
      tag: { source: 'udp1' },
    });
    expect(decode(block('s:udp1'), { requireChecksum: true })).toMatchObject({
      ok: false,
      reason: 'malformed',
    });
  });

  test('text without a block has none', () => {
    expect(readTags(HDT, true)).toEqual({ ok: true, tag: undefined, next: 0 });
  });
});

describe('TAG blocks written', () => {
  test('the form of the contract', () => {
    expect(formatTag(1_700_000_000.25, 'udp1')).toBe(block('s:udp1,c:1700000000.250'));
    expect(formatTag(1_700_000_000, 'udp1')).toBe(block('s:udp1,c:1700000000.000'));
    expect(formatTag(1_700_000_000.1234, 'a')).toBe(block('s:a,c:1700000000.1234'));
    expect(formatTag(1_700_000_000.123456, 'a')).toBe(block('s:a,c:1700000000.123456'));
    expect(formatTag(0, 'a')).toBe(block('s:a,c:0.000'));
  });

  test('read again, time to the microsecond and source are the same', () => {
    const source = fc.stringMatching(/^[a-zA-Z0-9:/_.-][a-zA-Z0-9:/_. -]{0,19}$/);
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 4_000_000_000 }),
        fc.nat(999_999),
        source,
        (seconds, micro, name) => {
          const at = (seconds * 1e6 + micro) / 1e6;
          const line = `${formatTag(at, name)}${HDT}`;
          expect(splitLine(line)).toEqual([line]);
          expect(decode(line, { requireChecksum: true })).toMatchObject({
            ok: true,
            tag: { at, source: name },
          });
        },
      ),
      { numRuns: 5000, seed: 4 },
    );
  });

  test('a time or a source that cannot be written is an error', () => {
    for (const at of [Number.NaN, -1, Number.POSITIVE_INFINITY, 1e11])
      expect(() => formatTag(at, 'a')).toThrow(RangeError);
    for (const source of ['', 'a,b', 'a*b', 'a\\b', '$a', '!a', 'a\n', 'é'])
      expect(() => formatTag(5, source)).toThrow(RangeError);
  });
});
