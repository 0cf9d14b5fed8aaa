import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import type { Night, Sample } from '../../../shared/logbook/night.ts';
import { reportOf } from '../../../shared/logbook/report/report.ts';
import { lasting, moment, position } from '../../../shared/logbook/report/words.ts';

const T0 = Date.UTC(2026, 10, 25, 20, 0, 0) / 1000;

const { boat, cable, limits } = toSettings(commonBoat());

/** Ten minutes at anchor, three of them without a sample. */
function night(change: (night: Night) => void = () => {}): Night {
  const strips: Sample[] = [];
  for (let at = T0; at <= T0 + 600; at += 30)
    if (at < T0 + 200 || at > T0 + 380)
      strips.push({ at, lat: -36.0002, lon: 163.5, distance: 22, distanceMost: 24, circle: 50, depth: 7 });
  const made: Night = {
    summary: {
      id: '2026-11-25T2000-1',
      origin: 'watch',
      from: T0,
      to: T0 + 600,
      upTo: T0 + 600,
      boat: 'Tarrock <i>',
      mark: { lat: -36, lon: 163.5, sigma: 3, at: T0, by: 'Ann & Bo', how: 'here' },
      marks: 1,
      alerts: { alarms: 1, warnings: 0, cautions: 0, kinds: { drag: 1 } },
      gaps: { count: 1, seconds: { position: 180 } },
      sentences: 1000,
      rejected: { checksum: 1, malformed: 2, unknown: 3 },
      versions: ['0.1.0'],
    },
    alerts: [
      {
        id: 'drag.1',
        kind: 'drag',
        priority: 'alarm',
        text: 'The anchor drags.',
        from: T0 + 400,
        to: T0 + 460,
        acknowledgedBy: 'Ann',
        acknowledgedAt: T0 + 430,
        changes: [
          { at: T0 + 400, state: 'active-unacknowledged', priority: 'alarm', text: 'The anchor drags.' },
          {
            at: T0 + 430,
            state: 'active-acknowledged',
            priority: 'alarm',
            text: 'The anchor drags.',
            by: 'Ann',
          },
          { at: T0 + 460, state: 'normal', priority: 'alarm', text: 'The anchor drags.' },
        ],
      },
    ],
    story: [{ at: T0, kind: 'mark', by: 'Ann', text: 'Mark let go under the bow.' }],
    step: 30,
    strips,
    settings: { boat, cable, limits, circle: { radius: 50, computed: false, explanation: 'Told.' } },
    gaps: [{ kind: 'position', from: T0 + 200, to: T0 + 380 }],
    checksums: [{ segment: 'a', from: T0, to: T0 + 600, lines: 9, bytes: 500, sha256: 'f'.repeat(64) }],
  };
  change(made);
  return made;
}

const report = (change?: (night: Night) => void) =>
  reportOf(night(change), { at: T0 + 7200, version: '0.1.0' });

describe('the incident report', () => {
  test('stands alone: asks nobody for anything, and what people wrote is no markup', () => {
    const html = report();
    expect(html).not.toMatch(/(?:src|href)=|<script|@import|url\((?!#)/);
    expect(html).toContain('Tarrock &lt;i&gt;');
    expect(html).not.toContain('<i>');
    expect(html).toContain('by Ann &amp; Bo');
  });

  test('says first of all when there was no position, and joins no line across', () => {
    const html = report();
    expect(html).toContain('For 3 min altogether there was no position');
    expect(html).toContain('2026-11-25 20:03:20 to 20:06:20 UTC, 3 min: no position');
    expect(html.indexOf('no position')).toBeLessThan(html.indexOf('<h2>Facts'));
    const track = /class="frame"[\s\S]*?<path d="([^"]*)" class="track"/.exec(html)![1]!;
    expect(track.match(/M/g)).toHaveLength(2);
    expect(html.match(/class="dead"/g)).toHaveLength(1);
    const whole = report((made) => {
      made.gaps = [];
    });
    expect(whole).toContain('Position was known and held to be good throughout');
  });

  test('gaps that overlap are counted once; one that goes on ends with the record', () => {
    const html = report((made) => {
      made.gaps.push({ kind: 'silence', from: T0 + 300, to: T0 + 400, why: 'hawse was not running' });
      made.gaps.push({ kind: 'position', from: T0 + 590 });
    });
    expect(html).toContain('For 3 min 30 s altogether');
    expect(html).toContain('no sentence from any instrument: hawse was not running');
    expect(html).toContain('goes on');
  });

  test('tells every change of an alert, and who acknowledged it', () => {
    const html = report();
    for (const told of ['raised, not acknowledged', 'acknowledged by Ann', '22.2 m from the mark'])
      expect(html).toContain(told);
    expect(html).toContain(`<td class="hash">${'f'.repeat(64)}</td>`);
    expect(html).toContain('3 (1 with a wrong checksum, 2 malformed)');
  });

  test('a simulation, an import, a night without any position: each says so', () => {
    const html = report((made) => {
      made.summary.simulated = 'Petrel Cove';
      made.summary.origin = 'import';
      for (const sample of made.strips) {
        delete sample.lat;
        delete sample.lon;
      }
      made.alerts = [];
      made.checksums = [];
    });
    expect(html).toContain('SIMULATED: Petrel Cove. No boat lay here.');
    expect(html).toContain('sentences recorded elsewhere');
    expect(html).toContain('no plan can be drawn');
    expect(html).toContain('There was no alert.');
    expect(html).toContain('There are no checksums');
  });

  test('words of time and place', () => {
    expect([59, 60, 2300, 3600, 33_130].map(lasting)).toEqual([
      '59 s',
      '1 min',
      '38 min 20 s',
      '1 h',
      '9 h 12 min',
    ]);
    expect(moment(T0 + 0.9)).toBe('2026-11-25 20:00:00');
    expect(position({ lat: -16.5, lon: 179.9999 })).toBe('16° 30.000′ S 179° 59.994′ E');
  });
});

describe('every fact of the night', () => {
  const summary = (change: Partial<Night['summary']>) => (made: Night) =>
    void Object.assign(made.summary, change);

  test('that was measured stands with its time', () => {
    const html = report(
      summary({
        place: 'Moss Bay',
        marks: 3,
        streamMost: { at: T0 + 60, drift: 0.5, set: 90 },
        farthest: { at: T0 + 90, distance: 41, bearing: 200 },
        movedMost: { at: T0 + 120, moved: 12, sigma: 2, probability: 0.93 },
        load: { at: T0 + 150, worst: 2100, part: 0.21, workingLoad: 10_000 },
        notes: 'Rolled\nall <night>.',
        simulated: 'a drill',
      }),
    );
    expect(html).toContain('SIMULATED: a drill');
    expect(html).toContain('Moss Bay, ');
    expect(html).toContain('last of 3 marks');
    expect(html).toMatch(/setting 090°, 2026-11-25 20:01:00/);
    expect(html).toMatch(/41\.0 m bearing 200°, 2026-11-25 20:01:30/);
    expect(html).toMatch(/12\.0 m ± 4\.0 m, 93 % likely/);
    expect(html).toContain('21 % of the working load');
    expect(html).toContain('Rolled<br>all &lt;night&gt;.');
  });

  test('a farthest place without bearing and a pull without working load say no more than that', () => {
    const html = report(
      summary({ farthest: { at: T0 + 90, distance: 41 }, load: { at: T0 + 150, worst: 2100 } }),
    );
    expect(html).toContain('41.0 m, 2026-11-25 20:01:30');
    expect(html).not.toContain('of the working load');
  });

  test('a night that goes on, without checksums and story, says so', () => {
    const html = report((made) => {
      delete made.summary.to;
      made.story = [];
      made.checksums = [];
      made.gaps.push(
        { kind: 'depth', from: T0 + 500, why: 'no sounder' },
        { kind: 'silence', from: T0 + 590 },
      );
    });
    expect(html).toContain('(still at anchor)');
    expect(html).toContain('Nothing beside the alerts.');
    expect(html).toContain('checksums are reckoned when she is aweigh');
    expect(html).toContain('goes on');
    expect(html).toContain(': no sounder');
    // A gap without an end lasts until the last that is known.
    expect(html).toContain('20:09:50 to 20:10:00 UTC');
    const ended = report((made) => {
      made.checksums = [];
    });
    expect(ended).toContain('There are no checksums');
  });

  test('how the record came about: rebuilt wholly or in part, and doubts', () => {
    expect(report(summary({ rebuilt: { at: T0, exact: true } as never }))).toMatch(
      /made anew later from the recorded sentences\./,
    );
    expect(report(summary({ rebuilt: { at: T0, exact: false } as never }))).toMatch(
      /state of the watch then is lost/,
    );
    expect(report(summary({ doubts: ['The clock <leapt>.'] }))).toContain(
      '<li>The clock &lt;leapt&gt;.</li>',
    );
  });

  test('an alarm of which nobody knows where it was has no number on the plan; a caution is raised, not acknowledged', () => {
    const html = report((made) => {
      made.alerts[0]!.from = T0 + 290;
      made.alerts[0]!.changes[0]!.at = T0 + 290;
      made.alerts.push({
        id: 'heading-lost.2',
        kind: 'heading-lost',
        priority: 'caution',
        text: 'No heading.',
        from: T0 + 500,
        changes: [{ at: T0 + 500, state: 'active-acknowledged', priority: 'caution', text: 'No heading.' }],
      });
    });
    expect(html).toContain('place unknown');
    expect(html).toMatch(/<td>caution<\/td><td>raised<\/td>/);
  });

  test('of many stretches without a position the ten longest stand first', () => {
    const html = report((made) => {
      made.gaps = Array.from({ length: 12 }, (_, i) => ({
        kind: i % 2 === 0 ? ('silence' as const) : ('doubtful' as const),
        from: T0 + 40 * i,
        to: T0 + 40 * i + 5 + i,
      }));
    });
    expect(html).toContain('These are the 10 longest of 12');
  });
});

describe('settings and strips', () => {
  test('what was in force is all there, to port and to starboard, told or not', () => {
    const html = report((made) => {
      made.settings = {
        boat: {
          ...boat,
          antenna: { aftOfRoller: 9, toStarboard: -0.5 },
          sounder: { aftOfRoller: 4, belowWaterline: 0.6 },
        },
        cable: { massPerMetre: 2.3, workingLoad: 12_500 },
        limits: { depthBelow: 2, depthAbove: 12, underKeelBelow: 0.5, windAbove: 15, windShift: 60 },
        circle: { radius: 64, computed: true, explanation: 'By <hand>.' },
        veered: 40,
      };
    });
    for (const words of [
      '9.0 m abaft the bow roller, 0.5 m to port',
      '0.6 m below the waterline',
      '40.0 m out, chain 2.30 kg/m, working load 12.5 kN',
      '64.0 m, computed. By &lt;hand&gt;.',
      '<dt>Alarm when shoaler than</dt><dd>2.0 m</dd>',
      '<dt>Warning when the wind has shifted by</dt><dd>60°</dd>',
    ])
      expect(html).toContain(words);
    const bare = report((made) => {
      made.settings = {
        boat: { ...boat, antenna: { aftOfRoller: 9, toStarboard: 0.5 }, sounder: { aftOfRoller: 4 } },
        cable: { massPerMetre: 2.3 },
        limits: {},
      };
    });
    for (const words of [
      '0.5 m to starboard',
      'depth below the waterline not told',
      'length out not told, chain 2.30 kg/m<',
      '<dt>Circle</dt><dd>none</dd>',
    ])
      expect(bare).toContain(words);
    expect(bare).not.toContain('Alarm when shoaler');
  });

  test('a strip has a line where something was known, and none where nothing was', () => {
    const lines = (html: string) => html.match(/<path d="[^"]+" class="(line|thin)"/g)?.length ?? 0;
    const rich = report((made) => {
      made.strips = made.strips.map((sample, i) => ({
        at: sample.at,
        distance: 22,
        windSpeed: 5,
        ...(i % 2 ? { windMost: 8 } : {}),
        depthLeast: 6,
        moved: 1,
        probability: 0.2,
        load: 800,
        circle: 50,
      }));
    });
    expect(lines(rich)).toBeGreaterThan(lines(report()));
    const long = report((made) => {
      made.summary.to = T0 + 300 * 3600;
      made.summary.upTo = T0 + 300 * 3600;
    });
    expect(long.match(/<text/g)!.length).toBeLessThan(200);
  });
});
