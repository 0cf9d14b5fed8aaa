import { describe, expect, test } from 'vitest';
import { accepted, only, refuse, say } from './read.ts';

describe('AIS parts', () => {
  test('a part of a message: the payload is kept, not decoded', () => {
    expect(accepted('!AIVDM,2,2,3,B,1@0000000000000,2*55').observations).toEqual([
      {
        kind: 'ais-fragment',
        own: false,
        total: 2,
        number: 2,
        sequence: 3,
        channel: 'B',
        payload: '1@0000000000000',
        fillBits: 2,
      },
    ]);
    expect(only(say('!AIVDO,1,1,,,E,2'), 'ais-fragment')).toEqual({
      kind: 'ais-fragment',
      own: true,
      total: 1,
      number: 1,
      channel: '',
      payload: 'E',
      fillBits: 2,
    });
  });

  test('an empty payload occurs in real streams (aislib_stream.txt)', () => {
    expect(only(accepted('!AIVDM,1,1,,B,,0*25').observations, 'ais-fragment')?.payload).toBe('');
  });

  test('parts that cannot be, and characters that carry no six bits', () => {
    for (const body of [
      '!AIVDM,1,2,,A,E,2',
      '!AIVDM,0,0,,A,E,2',
      '!AIVDM,1,0,,A,E,2',
      '!AIVDM,,,,A,E,2',
      '!AIVDM,1,1,,A,E,6',
      '!AIVDM,1,1,,A,E,',
      '!AIVDM,1,1,,A,E',
      '!AIVDM,1,1,,A,E X,0',
      '!AIVDM,1,1,,A,EX,0',
      '!AIVDM,1,1,,A,Ex,0',
      '!AIVDM,1,1,,A,E/,0',
    ])
      expect([body, refuse(body).reason]).toEqual([body, 'malformed']);
    expect(only(say('!AIVDM,1,1,,A,09:@AW`aw,0'), 'ais-fragment')?.payload).toBe('09:@AW`aw');
  });
});

describe('alert sentences', () => {
  test('reserved characters in a text are written ^hh', () => {
    expect(say('IIALR,,001,A,V,Depth ^2A 2.5 m^21')).toEqual([
      {
        kind: 'alert-sentence',
        sentence: { id: 'ALR', alertId: '001', condition: 'A', acknowledged: 'V', text: 'Depth * 2.5 m!' },
      },
    ]);
  });

  test('ACN: the command is found in either order beside the C', () => {
    const command = (fields: string) =>
      only(say(`RAACN,220516,TCK,002,1,${fields}`), 'alert-sentence')?.sentence;
    expect(command('A,C')).toMatchObject({ command: 'A' });
    expect(command('C,A')).toMatchObject({ command: 'A' });
    expect(command('C,S')).toMatchObject({ command: 'S' });
    for (const fields of ['C,C', ',C', 'A,', 'A,A', 'X,C'])
      expect(refuse(`RAACN,220516,TCK,002,1,${fields}`).reason).toBe('malformed');
  });

  test('members that are blank are left out', () => {
    expect(only(say('RAACN,,,002,,A,C'), 'alert-sentence')?.sentence).toEqual({
      id: 'ACN',
      alertId: '002',
      command: 'A',
    });
    expect(only(say('FBALC,1,1,,1,,01,,'), 'alert-sentence')?.sentence).toEqual({
      id: 'ALC',
      total: 1,
      number: 1,
      entries: [{ alertId: '01' }],
    });
    expect(only(say('FBALC,1,1,,3,FEB,01,,,,02,5,,,03,,7'), 'alert-sentence')?.sentence).toMatchObject({
      entries: [
        { manufacturer: 'FEB', alertId: '01' },
        { alertId: '02', instance: '5' },
        { alertId: '03', revision: '7' },
      ],
    });
    expect(only(say('IIALF,1,1,,,,,,,192,,,,'), 'alert-sentence')?.sentence).toEqual({
      id: 'ALF',
      total: 1,
      number: 1,
      alertId: '192',
      text: '',
    });
  });

  test('ALC: as many entries as it claims', () => {
    expect(refuse('FBALC,02,01,03,02,FEB,01,02,03').reason).toBe('malformed');
    expect(refuse('FBALC,02,01,03,01,FEB,01,02,03,TEB,02,03,04').reason).toBe('malformed');
    expect(refuse('FBALC,02,01,03,').reason).toBe('malformed');
  });

  test('HBT: V is a fault, and blank does not vouch', () => {
    const ok = (status: string) => only(say(`HCHBT,5,${status},1`), 'alert-sentence')?.sentence;
    expect(ok('A')).toEqual({ id: 'HBT', interval: 5, ok: true, sequence: 1 });
    expect(ok('V')).toMatchObject({ ok: false });
    expect(ok('')).toMatchObject({ ok: false });
  });

  test('an ACK that names nothing, states that do not exist, parts beyond two', () => {
    expect(refuse('VRACK,').reason).toBe('malformed');
    expect(refuse('IIALF,1,1,0,124304.50,A,W,X,,192,1,1,0,LOST TARGET').reason).toBe('malformed');
    expect(refuse('IIALF,3,3,0,124304.50,A,W,A,,192,1,1,0,LOST TARGET').reason).toBe('malformed');
    expect(refuse('IIALR,999999,001,A,V,text').reason).toBe('malformed');
  });
});
