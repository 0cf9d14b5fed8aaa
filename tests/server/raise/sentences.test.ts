import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createBulletin } from '../../../server/raise/bulletin.ts';
import { alc, alf, alr, type OnTheBus } from '../../../server/raise/encode.ts';
import { hearOrders } from '../../../server/raise/hear.ts';
import { identifier, ON_THE_BUS } from '../../../server/raise/numbers.ts';
import { field, sentence } from '../../../server/raise/sentence.ts';
import { ALERT_KINDS, type Alert } from '../../../shared/alerts/alert.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import type { AlertSentence } from '../../../shared/sentences/observation.ts';
import { alertOf } from './help.ts';

/** What our own decoder, which is held to published sentences, reads in one of ours. */
function read(line: string): AlertSentence {
  expect(line.length).toBeLessThanOrEqual(82);
  expect(line).toMatch(/^\$[\x20-\x7d]*\*[0-9A-F]{2}\r\n$/);
  const decoded = decode(line.trimEnd(), { requireChecksum: true });
  if (!decoded.ok) throw new Error(`${line}: ${decoded.why}`);
  const [observation] = decoded.observations;
  if (observation?.kind !== 'alert-sentence') throw new Error(`${line} is no alert sentence`);
  return observation.sentence;
}

const drags: OnTheBus = {
  identifier: 10_001,
  instance: 3,
  revision: 2,
  escalation: 0,
  priority: 'alarm',
  state: 'active-unacknowledged',
  title: 'ANCHOR DRAGS',
  text: 'The anchor has moved 12 m.',
  at: 45_784.5,
};

describe('the published sentences come out of these encoders', () => {
  test('ALR: JRC JR-8600 manual p. 161 [F], apart from its lower-case checksum and fraction of a second', () => {
    const at = 22 * 3600 + 5 * 60 + 16;
    const ours = alr('RA', { number: 1, at, active: true, acknowledged: true, text: 'Bilge pump alarm1' });
    expect(ours.replace('220516.00', '220516').replace(/\*..\r\n/, '')).toBe(
      '$RAALR,220516,001,A,A,Bilge pump alarm1',
    );
  });

  test('ALF: the fields of JRC JLN-900 p. 239–241 [F] in their order', () => {
    const at = 8 * 3600 + 19 * 60 + 50.1;
    const [first] = alf('II', 'XYZ', 'B', 1, {
      identifier: 512,
      instance: 1,
      revision: 2,
      escalation: 0,
      priority: 'alarm',
      state: 'active-silenced',
      title: 'HEADING LOST',
      text: '',
      at,
    });
    // The published one writes the identifier with four digits; the number is the same.
    expect(first).toBe(sentence('IIALF', '2,1,1,081950.10,B,A,S,XYZ,512,1,2,0,HEADING LOST'.split(',')));
    expect(sentence('IIALF', '2,1,1,081950.10,B,A,S,XYZ,0512,1,2,0,HEADING LOST'.split(','))).toBe(
      '$IIALF,2,1,1,081950.10,B,A,S,XYZ,0512,1,2,0,HEADING LOST*2D\r\n',
    );
  });

  test('ALC: JRC JFE-400 p. 93 [F]; numbers of alerts are not padded by us', () => {
    expect(alc('FB', 'FEB', 3, [{ identifier: 1, instance: 2, revision: 3 }])).toEqual([
      sentence('FBALC', '01,01,03,01,FEB,1,2,03'.split(',')),
    ]);
    expect(sentence('FBALC', '02,01,03,01,FEB,01,02,03'.split(','))).toBe(
      '$FBALC,02,01,03,01,FEB,01,02,03*0A\r\n',
    );
  });
});

describe('round trip through our own decoder', () => {
  test('ALF: title and description, two sentences joined by their sequence number', () => {
    const [first, second] = alf('II', 'HWS', 'B', 7, drags).map(read);
    expect(first).toEqual({
      id: 'ALF',
      total: 2,
      number: 1,
      sequence: 7,
      timeOfDay: 45_784.5,
      category: 'B',
      priority: 'A',
      state: 'V',
      manufacturer: 'HWS',
      alertId: '10001',
      instance: '3',
      revision: 2,
      escalation: 0,
      text: 'ANCHOR DRAGS',
    });
    expect(second).toEqual({
      id: 'ALF',
      total: 2,
      number: 2,
      sequence: 7,
      manufacturer: 'HWS',
      alertId: '10001',
      instance: '3',
      revision: 2,
      escalation: 0,
      text: 'The anchor has moved 12 m.',
    });
  });

  test('every state and priority has the letter of the standard', () => {
    const letter = (told: Partial<OnTheBus>) => {
      const one = read(alf('II', 'HWS', 'A', 0, { ...drags, ...told })[0]!);
      return one.id === 'ALF' ? `${one.priority}${one.state}` : '';
    };
    expect(
      (
        [
          'active-unacknowledged',
          'active-silenced',
          'active-acknowledged',
          'rectified-unacknowledged',
          'normal',
        ] as const
      ).map((state) => letter({ state })),
    ).toEqual(['AV', 'AS', 'AA', 'AU', 'AN']);
    expect((['warning', 'caution'] as const).map((priority) => letter({ priority }))).toEqual(['WV', 'CV']);
  });

  test('ALC: as many sentences as the alerts need, each within 82 characters, none lost', () => {
    for (const count of [0, 1, 2, 3, 4, 9, 40]) {
      const entries = Array.from({ length: count }, (_, i) => ({
        identifier: 10_001 + i,
        instance: 999_990 + (i % 10),
        revision: 1 + i,
      }));
      const lines = alc('II', 'HWS', 99, entries).map(read);
      const found = lines.flatMap((line, i) => {
        if (line.id !== 'ALC') throw new Error(line.id);
        expect([line.total, line.number, line.sequence]).toEqual([lines.length, i + 1, 99]);
        return line.entries;
      });
      expect(found.map(({ alertId }) => Number(alertId))).toEqual(entries.map((entry) => entry.identifier));
    }
  });

  test('ALR: raised, ended, and none at all', () => {
    const told = { number: 2, at: 3600, active: true, acknowledged: false, text: 'Outside, 46 m.' };
    expect(read(alr('II', told))).toEqual({
      id: 'ALR',
      timeOfDay: 3600,
      alertId: '002',
      condition: 'A',
      acknowledged: 'V',
      text: 'Outside, 46 m.',
    });
    expect(read(alr('II'))).toMatchObject({ alertId: '', condition: 'V', acknowledged: 'V', text: '' });
  });

  test('reserved characters and signs beyond ASCII come back as they were; what cannot be written is plain', () => {
    const text = 'Depth $2.5*, wind! 50° ^A~\\ \x7f';
    expect(read(alr('II', { number: 1, at: 0, active: true, acknowledged: false, text }))).toMatchObject({
      text,
    });
    expect(field('12 kn – “gusty” ≥ 30 €', 60)).toBe('12 kn - "gusty" >= 30 ?');
  });

  test('any text: within 82 characters, never cut inside an escape', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 120 }), (text) => {
        const [, second] = alf('II', 'HWS', 'B', 0, { ...drags, text });
        read(second!);
        expect(second!.slice(0, -5)).not.toMatch(/\^[0-9A-F]?$/);
        read(alr('II', { number: 1, at: 1e9, active: true, acknowledged: true, text }));
      }),
    );
  });

  test('every kind of alert has a number of its own and a title of at most 16 characters', () => {
    const rows = ALERT_KINDS.map((kind) => ON_THE_BUS[kind]);
    expect(new Set(rows.map(({ number }) => number)).size).toBe(ALERT_KINDS.length);
    for (const { title } of rows) expect(title).toMatch(/^[A-Z ]{3,16}$/);
  });
});

describe('what the bus is told, and when', () => {
  const config = { talker: 'II', manufacturer: 'HWS', formats: ['ALF'], accepts: true } as const;
  const moment = (at: number, ...alerts: Alert[]) => ({ at, alerts, clockOffset: 0 });
  const short = (lines: string[]) =>
    lines.map(read).map((one) => {
      switch (one.id) {
        case 'ALF':
          return `ALF${one.number} ${one.state ?? ''} r${one.revision}`;
        case 'ALC':
          return `ALC ${one.entries.length}`;
        case 'ALR':
          return `ALR ${one.alertId} ${one.condition}${one.acknowledged}`;
        default:
          return one.id;
      }
    });

  test('ALF at each change and only then; ALC every 30 s, with nothing in it as well', () => {
    const { next } = createBulletin(config);
    const raised = alertOf('drag');
    const told = (at: number, ...alerts: Alert[]) => short(next(alerts, moment(at, ...alerts)));
    expect(told(0)).toEqual(['ALC 0']);
    expect(told(1, raised)).toEqual(['ALF1 V r1', 'ALF2  r1']);
    expect(told(2, { ...raised, text: 'moved 13 m', value: 13 })).toEqual([]);
    expect(told(29.9, raised)).toEqual([]);
    expect(told(30, raised)).toEqual(['ALC 1']);
    expect(told(31, { ...raised, state: 'active-acknowledged' })).toEqual(['ALF1 A r2', 'ALF2  r2']);
    expect(told(32)).toEqual(['ALF1 N r3', 'ALF2  r3']);
    expect(told(60)).toEqual(['ALC 0']);
  });

  test('what was told is told until it is normal, also when it is not due any more; what was not due is not told', () => {
    const { next } = createBulletin(config);
    next([], moment(0));
    const raised = alertOf('drag');
    expect(next([], moment(1, raised))).toEqual([]);
    expect(next([], moment(2))).toEqual([]);
    next([raised], moment(3, raised));
    expect(short(next([], moment(4, { ...raised, state: 'active-acknowledged' })))).toEqual([
      'ALF1 A r2',
      'ALF2  r2',
    ]);
  });

  test('revisions count to 99 and begin again at 1', () => {
    const { next } = createBulletin(config);
    const raised = alertOf('drag');
    let last: string[] = [];
    for (let i = 0; i < 100; i++) {
      const state = i % 2 === 0 ? 'active-unacknowledged' : 'rectified-unacknowledged';
      last = next([raised], moment(0.01 * i, { ...raised, state })).filter((line) => line.includes('ALF'));
    }
    expect(short(last)).toEqual(['ALF1 U r1', 'ALF2  r1']);
  });

  test('ALR speaks for a kind: active when one is, acknowledged when none waits; again every 30 s', () => {
    const { next } = createBulletin({ ...config, formats: ['ALR'] });
    const one = alertOf('vessel-near', { subject: '211000001' });
    const other = alertOf('vessel-near', { subject: '211000002' });
    const seen = { ...one, state: 'active-acknowledged' } as const;
    const told = (at: number, ...alerts: Alert[]) => short(next(alerts, moment(at, ...alerts)));
    expect(told(0)).toEqual(['ALR  VV']);
    expect(told(1, one)).toEqual(['ALR 014 AV']);
    expect(told(2, seen)).toEqual(['ALR 014 AA']);
    expect(told(3, seen, other)).toEqual(['ALR 014 AV']);
    expect(told(4, other)).toEqual(['ALR 014 AV']);
    expect(told(30, other)).toEqual(['ALR 014 AV']);
    expect(told(31)).toEqual(['ALR 014 VA']);
  });

  test('an alert that nobody answered and that became more urgent counts its escalation', () => {
    const { next } = createBulletin(config);
    const raised = alertOf('wind-speed', { priority: 'warning' });
    next([raised], moment(0, raised));
    const worse: Alert = { ...raised, priority: 'alarm', escalated: true };
    const [first] = next([worse], moment(300, worse));
    expect(read(first!)).toMatchObject({ priority: 'A', escalation: 1, revision: 2 });
  });
});

describe('orders from the bus', () => {
  const alerts = [alertOf('drag'), alertOf('vessel-near'), alertOf('vessel-near')];
  const [drag, near, nearToo] = alerts as [Alert, Alert, Alert];
  const instance = (alert: Alert) => alert.id.split('.')[1]!;
  const said = (body: string) => hearOrders(line(body), 'HWS', alerts);
  const line = (body: string) => sentence(body.slice(0, 5), body.slice(6).split(',')).trimEnd();

  test('ACN acknowledges and silences one alert, in either order of letters; without instance all of that kind', () => {
    const number = identifier(ON_THE_BUS.drag.number);
    const nearNumber = identifier(ON_THE_BUS['vessel-near'].number);
    expect(said(`RAACN,220516,HWS,${number},${instance(drag)},A,C`)).toEqual([
      { do: 'acknowledge', sentence: 'ACN', ids: [drag.id] },
    ]);
    expect(said(`RAACN,220516,HWS,${number},${instance(drag)},C,S`)).toMatchObject([{ do: 'silence' }]);
    expect(said(`RAACN,,HWS,${nearNumber},${instance(nearToo)},Q,C`)).toEqual([
      { do: 'query', sentence: 'ACN', ids: [nearToo.id] },
    ]);
    expect(said(`RAACN,,HWS,${nearNumber},,A,C`)).toMatchObject([{ ids: [near.id, nearToo.id] }]);
  });

  test('ACK acknowledges what an ALR number stands for', () => {
    expect(said('VRACK,014')).toEqual([{ do: 'acknowledge', sentence: 'ACK', ids: [near.id, nearToo.id] }]);
  });

  test('an order for another maker is none of ours; one that cannot be followed says why', () => {
    expect(said('RAACN,220516,TCK,10001,1,A,C')).toEqual([]);
    expect(said(`RAACN,,HWS,10001,${instance(drag)},O,C`)).toMatchObject([{ do: 'nothing' }]);
    expect(said('RAACN,,HWS,10002,1,A,C')).toMatchObject([
      { do: 'nothing', why: 'There is no alert 10002/1 now.' },
    ]);
    expect(said('VRACK,999')).toMatchObject([{ do: 'nothing', why: 'There is no alert ALR 999 now.' }]);
  });

  test('without a right checksum nothing is obeyed', () => {
    const order = line(`RAACN,220516,HWS,10001,${instance(drag)},A,C`);
    expect(hearOrders(order, 'HWS', alerts)).toHaveLength(1);
    expect(hearOrders(order.slice(0, -3), 'HWS', alerts)).toEqual([]);
    expect(hearOrders(order.replace('HWS,10001', 'HWS,10004'), 'HWS', alerts)).toEqual([]);
    expect(hearOrders('noise', 'HWS', alerts)).toEqual([]);
  });
});
