import { describe, expect, test } from 'vitest';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode, UNDERSTOOD } from '../../../shared/sentences/decode.ts';
import { accepted, refuse, refused } from './read.ts';

const loose = { requireChecksum: false };

describe('checksum', () => {
  test('two hexadecimal digits in either case', () => {
    expect(accepted('$RAALR,220516,001,A,A,Bilge pump alarm1*4c').id).toBe('ALR');
    expect(accepted('$RAALR,220516,001,A,A,Bilge pump alarm1*4C').id).toBe('ALR');
  });

  test.each([
    ['wrong', '$GPHDT,274.07,T*04'],
    ['missing', '$GPHDT,274.07,T'],
    ['missing behind the star', '$GPHDT,274.07,T*'],
    ['one digit (lake-2008-07-10)', '$GPHDT,274.07,T*3'],
    ['three digits', '$GPHDT,274.07,T*003'],
    ['with 0x', '$GPHDT,274.07,T*0x03'],
    ['no hexadecimal digits', '$GPHDT,274.07,T*0G'],
    ['followed by something', '$GPHDT,274.07,T*03 garbage'],
    ['of an unknown sentence', '$GPXYZ,1*00'],
  ])('%s', (_, sentence) => {
    expect(refused(sentence).reason).toBe('checksum');
  });

  test('where it is not required a sentence may lack it, but not carry a wrong one', () => {
    expect(decode('$GPHDT,274.07,T', loose).ok).toBe(true);
    expect(decode('$GPHDT,274.07,T*03', loose).ok).toBe(true);
    for (const wrong of ['$GPHDT,274.07,T*04', '$GPHDT,274.07,T*', '$GPHDT,274.07,T*3'])
      expect(decode(wrong, loose)).toMatchObject({ ok: false, reason: 'checksum' });
  });

  test('why: both checksums are named', () => {
    expect(refused('$GPHDT,274.07,T*04').why).toBe('has checksum 04, its characters give 03');
  });

  test('a right checksum does not make a damaged sentence right (powerup-2015-04-29-60, baltic-2013-08-03)', () => {
    expect(refuse('IIVHW,,,&S\x13\xa9\x8a\t\x92r9,N,,%\xd35').reason).toBe('malformed');
    expect(refused('$GPRMB,+21.5,C*3A').reason).toBe('unknown');
  });
});

describe('the beginning', () => {
  test.each([
    '',
    ' ',
    'GPHDT,274.07,T*03',
    '#IIHDT,123.4,T*26',
    '# Name: a log',
    '\u0000\u0000',
    '274.07,T*03',
    '*03',
  ])('"%s" is no sentence', (piece) => {
    expect(refused(piece).reason).toBe('malformed');
  });

  test('white space behind the sentence is nothing', () => {
    expect(accepted('$GPHDT,274.07,T*03\r\n').id).toBe('HDT');
  });

  test('$ for fields, ! for encapsulated ones, and not the other way round', () => {
    expect(refuse('!GPHDT,274.07,T').reason).toBe('malformed');
    expect(refuse('$AIVDM,1,1,,A,E,2').reason).toBe('malformed');
    expect(accepted(withChecksum('!AIVDM,1,1,,A,E,2')).id).toBe('VDM');
  });
});

describe('the address', () => {
  test('any talker', () => {
    for (const talker of ['GP', 'GN', 'II', '23', '--', 'Q1', 'ZZ'])
      expect(accepted(withChecksum(`${talker}HDT,274.07,T`))).toMatchObject({ talker, id: 'HDT' });
  });

  test.each([
    'GPconstructor,1',
    'GPtoString,1',
    'GP__proto__,1',
    '__proto__,1',
    'constructor,1',
    'valueOf,1',
    'GPXYZ,1,2',
    'GPRMB,A,0.66,L,003,004,4917.24,N,12309.57,W,001.3,052.5,000.5,V',
    'PGRME,15.0,M,22.5,M,27.0,M',
    'PMTK001,604,3',
    'PGHDT,274.07,T',
    'LOG108,1,100',
    'gphdt,274.07,T',
    'CCGPQ,GGA',
    'GPHDTX,274.07,T',
  ])('$%s is whole, and unknown', (body) => {
    expect(refuse(body).reason).toBe('unknown');
    expect(refuse(body).why).toContain(body.slice(0, body.indexOf(',')));
  });

  test.each(['', ',', 'GP', 'HDT,274.07,T', 'G\u0001HDT,274.07,T', 'GPH\xe9T,1', 'GP HDT,1'])(
    '"%s" is malformed',
    (body) => {
      expect(refuse(body).reason).toBe('malformed');
    },
  );
});

test('every identifier of the reference is understood', () => {
  expect(UNDERSTOOD).toEqual(
    (
      'ACK ACN ALC ALF ALR DBK DBS DBT DPT GGA GLL GNS GSA GST GSV HBT HDG HDM HDT MTW MWD MWV RMC ROT THS ' +
      'VBW VDM VDO VDR VHW VLW VTG VWR VWT XDR ZDA'
    ).split(' '),
  );
});

test('refusals say which field and what it holds', () => {
  expect(refuse('GPHDT,12abc,T').why).toBe('HDT: heading "12abc" is not a number');
  expect(refuse('GPHDT,400,T').why).toBe('HDT: heading 400 is not within 0 to 360');
  expect(refuse('GPHDT,40,M').why).toBe('HDT: unit of the heading is "M", not one of T');
  expect(refuse('GPHDT,40').why).toBe('HDT has 1 fields, not 2');
  expect(refuse('GPGLL,4875.000,N,01131.000,E,120000,A,A').why).toBe(
    'GLL: latitude "4875.000" has 60 minutes or more',
  );
});
