import { describe, expect, test } from 'vitest';
import {
  inputReport,
  instrumentsYaml,
  type ListenReport,
  type Source,
} from '../../../server/listen/report.ts';
import { show, showBriefly } from '../../../server/listen/show.ts';
import { createTally } from '../../../server/listen/tally.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';

const depth = withChecksum('SDDPT,5.3,0.4');
const strange = withChecksum('PGRME,1.0,M');
const serial: Source = { id: 'serial1', serial: '/dev/ttyUSB0', baud: 'auto' };
const udp: Source = { id: 'udp1', udp: 10110 };
const tcp: Source = { id: 'tcp1', tcp: '192.168.4.1:2000' };
const view = (more: object) => ({
  id: 'x',
  up: true,
  detail: '',
  sentences: 0,
  rejected: { checksum: 0, malformed: 0, unknown: 0 },
  ...more,
});
const refused = (checksum: number) => ({ rejected: { checksum, malformed: 0, unknown: 0 } });

describe('the tally of sentences', () => {
  test('counts by input, talker and kind with the rate of the last ten seconds', () => {
    const tally = createTally();
    for (let at = 0; at <= 30; at += 0.5) tally.line('udp1', depth, at, true);
    tally.line('udp1', strange, 30, true);
    tally.line('udp1', 'noise', 30, true);
    tally.line('udp1', depth.replace('5.3', '6.3'), 30, true);
    expect(tally.sentences(30)).toEqual([
      { input: 'udp1', talker: '', id: 'PGRME', count: 1, perSecond: 0.1, age: 0, isRead: false, says: [] },
      {
        input: 'udp1',
        talker: 'SD',
        id: 'DPT',
        count: 61,
        perSecond: 2,
        age: 0,
        isRead: true,
        says: ['depth'],
      },
    ]);
    expect(tally.sentences(60)[1]).toMatchObject({ perSecond: 0, age: 30 });
    expect([...tally.said()]).toEqual(['depth']);
  });

  test('glued sentences are two; made-up kinds do not fill the memory', () => {
    const tally = createTally();
    tally.line('udp1', depth + depth, 0, true);
    expect(tally.sentences(0)[0]!.count).toBe(2);
    for (let n = 0; n < 2000; n++) tally.line('udp1', withChecksum(`P${1000 + n},1`), 0, true);
    expect(tally.sentences(0).length).toBe(300);
  });
});

describe('advice on an input', () => {
  test.each<[string, Source, object | undefined, number, string]>([
    [
      'a silent serial port',
      serial,
      view({ detail: '/dev/ttyUSB0 is open at 4800 baud' }),
      9,
      'Swap the two wires',
    ],
    [
      'no rate found',
      serial,
      view({ up: false, detail: '/dev/ttyUSB0 is open; looking' }),
      9,
      'Swap the two wires',
    ],
    ['a silent UDP port', udp, view({}), 9, 'on port 10110'],
    ['a UDP port that is taken', udp, view({ up: false }), 9, 'hawse keep running'],
    ['a silent gateway', tcp, view({}), 9, 'NMEA 0183 on that port'],
    [
      'no checksums',
      udp,
      view({ ...refused(9), lastRefusal: 'does not end with a checksum *hh' }),
      9,
      'checksumOptional',
    ],
    [
      'torn datagrams',
      udp,
      view({ sentences: 9, ...refused(9), lastRefusal: 'has checksum 11' }),
      9,
      'whole lines',
    ],
    [
      'noise',
      serial,
      view({ sentences: 9, ...refused(9), lastRefusal: 'has checksum 11' }),
      9,
      'two talkers',
    ],
  ])('%s', (_, source, heard, seconds, advice) => {
    expect(inputReport(source, heard as never, undefined, seconds).advice).toContain(advice);
  });

  test.each<[string, Source, object | undefined, number]>([
    ['in the first seconds', udp, view({}), 2],
    ['a port that is not there', serial, view({ up: false, detail: 'there is no /dev/ttyUSB0' }), 9],
    ['a good one', udp, view({ sentences: 99, ...refused(2) }), 9],
    ['a gateway that refuses', tcp, view({ up: false }), 9],
  ])('none %s', (_, source, heard, seconds) => {
    expect(inputReport(source, heard as never, undefined, seconds).advice).toBeUndefined();
  });
});

test('what is said on the wire never reaches the terminal as it came, and lines keep to the width', () => {
  const report: ListenReport = {
    seconds: 9,
    ports: [{ path: '/dev/ttyUSB0', what: 'FTDI', isListened: true }],
    inputs: [inputReport(serial, view({ sentences: 9, lastRefusal: 'begins with \x1b[2J\x07' }), 4800, 9)],
    sentences: [],
    duties: [{ duty: 'circle and drag', state: 'missing', text: 'word '.repeat(40).trim(), cure: 'do it' }],
  };
  const lines = show(report, 60);
  expect(lines.join('\n')).toContain('begins with ·[2J·');
  expect(lines.join('')).not.toContain('\x1b');
  expect(lines.every((line) => line.length <= 60)).toBe(true);
  expect(lines.join('\n')).toContain('/dev/ttyUSB0, 4800 baud: 9 sentences');
});

test('briefly, for a low window: a line a duty, sentences side by side, nothing wider than the window', () => {
  const tally = createTally();
  for (let n = 0; n < 7; n++) tally.line('udp1', withChecksum(`P${1000 + n},1`), 0, true);
  const duties = ['circle and drag', 'time'].map((duty) => ({
    duty,
    state: 'missing' as const,
    text: 'word '.repeat(30).trim(),
    cure: 'do it',
  }));
  const report: ListenReport = { seconds: 9, ports: [], inputs: [], sentences: tally.sentences(0), duties };
  const lines = showBriefly(report, 80);
  expect(lines.every((line) => line.length <= 80)).toBe(true);
  expect(lines.join('\n')).not.toContain('do it');
  expect(lines.filter((line) => line.startsWith('- '))).toHaveLength(2);
  expect(lines.filter((line) => line.startsWith('udp1 '))).toHaveLength(3);
});

test('only inputs that brought sentences are proposed for hawse.yaml, with the rate that was found', () => {
  const inputs = [
    inputReport(serial, view({ sentences: 3 }), 38_400, 9),
    inputReport(udp, undefined, undefined, 9),
    inputReport(tcp, view({ sentences: 3 }), undefined, 9),
  ];
  expect(instrumentsYaml([serial, udp, tcp], inputs)).toEqual([
    'instruments:',
    '  - serial: /dev/ttyUSB0',
    '    baud: 38400',
    '  - tcp: "192.168.4.1:2000"',
  ]);
  expect(instrumentsYaml([udp], [inputs[1]!])).toEqual([]);
});
