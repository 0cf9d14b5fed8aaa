import { describe, expect, test } from 'vitest';
import { sigmaOf } from '../../../shared/vessel/accuracy.ts';
import { fix, off, Rig, START, say, timeOfDay } from './help.ts';

/** One fix a second from `address` over the seconds `from` … `to − 1`. */
function sail(rig: Rig, address: string, from: number, to: number, input = 'udp1', north = 0): void {
  for (let i = from; i < to; i++) rig.hear(START + i, fix(address, START + i, { north }), input);
}

describe('a fix', () => {
  test('is shown while its time advances, also when the position does not move (static hold)', () => {
    const rig = new Rig();
    for (let i = 0; i < 600; i++) {
      rig.hear(START + i, fix('IIRMC', START + i, { sog: 0, cog: 0 }));
      if (i > 0) expect(rig.view().antenna?.age).toBe(0);
    }
    expect(rig.fixes).toBe(599);
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  test('that is repeated with the same time ages, is gone after five seconds, and brings nothing', () => {
    const rig = new Rig();
    sail(rig, 'IIRMC', 0, 10);
    for (let i = 10; i < 2400; i++)
      expect(rig.hear(START + i, fix('IIRMC', START + 9, { sog: 0, cog: 0 }))).toBe(false);
    expect(rig.view()).not.toHaveProperty('antenna');
    expect(rig.view()).not.toHaveProperty('roller');
    expect(rig.view()).not.toHaveProperty('sog');
    expect(rig.view().ages.position).toBe(2390);
    expect(rig.view().sources.position).toBeUndefined();
  });

  test('is never shown when a frozen receiver is all that was ever heard', () => {
    const rig = new Rig();
    for (let i = 0; i < 100; i++) rig.hear(START + i, fix('IIRMC', START, { sog: 0 }));
    expect(rig.view()).not.toHaveProperty('antenna');
    expect(rig.view()).not.toHaveProperty('sog');
    expect(rig.view().ages.position).toBeUndefined();
  });

  test('twin sentences of one receiver count once', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++)
      for (const address of ['GPGGA', 'GPGLL', 'GPRMC']) rig.hear(START + i, fix(address, START + i));
    expect(rig.fixes).toBe(59);
  });

  test('a change to a better sentence of the same receiver brings no fix twice', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++) {
      rig.hear(START + i, fix('GPRMC', START + i));
      rig.hear(START + i + 0.2, fix('GPGGA', START + i));
    }
    expect(rig.view().sources.position).toBe('udp1:GPGGA');
    expect(rig.fixes).toBe(59);
  });

  test('goes on over midnight', () => {
    const midnight = Date.UTC(2026, 6, 5) / 1000;
    const rig = new Rig(midnight - 5);
    for (let i = -5; i < 5; i++) expect(rig.hear(midnight + i, fix('GPGGA', midnight + i))).toBe(i > -5);
    expect(rig.view().clockOffset).toBeCloseTo(0, 9);
  });

  test('half-hertz is not old between fixes; every 30 s is, after ten', () => {
    const half = new Rig();
    for (let i = 0; i < 20; i += 2) half.hear(START + i, fix('GPGGA', START + i));
    expect(half.view(START + 22.9).antenna).toBeDefined();
    const rare = new Rig();
    for (let i = 0; i < 300; i += 30) rare.hear(START + i, fix('GPGGA', START + i));
    expect(rare.view(START + 280).antenna).toBeDefined();
    expect(rare.view(START + 280.5)).not.toHaveProperty('antenna');
  });

  test('a receiver that sets its clock back is believed after three sentences, and a note says so', () => {
    const rig = new Rig();
    sail(rig, 'GPRMC', 0, 30);
    const fixes = rig.fixes;
    for (let i = 30; i < 60; i++) rig.hear(START + i, fix('GPRMC', START + i - 13));
    expect(rig.fixes).toBe(fixes + 28);
    expect(rig.notes).toEqual(['GP RMC on udp1 has set its clock back; its fixes are taken again']);
  });

  test('a receiver that says it has none, or that simulates, is told of once', () => {
    const rig = new Rig();
    for (let i = 0; i < 100; i++)
      rig.hear(
        START + i,
        say('GPGGA', { kind: 'time', timeOfDay: i }, { kind: 'no-position', reason: 'simulated' }),
      );
    expect(rig.fixes).toBe(0);
    expect(rig.notes).toEqual(['GP GGA on udp1 sends simulated positions, which are not used']);
    expect(rig.view()).not.toHaveProperty('clockOffset');
  });

  test('without time counts while it moves', () => {
    const rig = new Rig();
    const gll = (north: number) =>
      say('GPGLL', { kind: 'position', ...off(north), quality: 'estimated', resolution: 1.85 });
    for (let i = 0; i < 10; i++) rig.hear(START + i, gll(i % 2));
    expect(rig.view().antenna?.age).toBe(0);
    for (let i = 10; i < 20; i++) rig.hear(START + i, gll(1));
    expect(rig.view()).not.toHaveProperty('antenna');
  });
});

describe('two receivers', () => {
  test('one serves; when it falls silent the other does, said in a note, and the jump is none of the boat', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++) {
      rig.hear(START + i, fix('IIRMC', START + i, { north: 20 }), 'serial1');
      if (i < 40) rig.hear(START + i + 0.5, fix('GPGGA', START + i), 'udp1');
    }
    expect(rig.notes).toEqual([
      'position now from GP GGA on udp1; it is better than II RMC on serial1',
      'position now from II RMC on serial1; GP GGA on udp1 has given nothing new for 5 s',
    ]);
    expect(rig.view().sources.position).toBe('serial1:IIRMC');
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  test('a frozen one is left as a silent one is', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++) {
      rig.hear(START + i, fix('GPGGA', START + Math.min(i, 30)), 'udp1');
      rig.hear(START + i, fix('IIRMC', START + i), 'serial1');
    }
    expect(rig.view().sources.position).toBe('serial1:IIRMC');
    expect(rig.view().antenna?.age).toBe(0);
  });

  test('differential goes before autonomous, estimated after both', () => {
    const rig = new Rig();
    for (let i = 0; i < 40; i++) {
      rig.hear(START + i, fix('GPGGA', START + i, { quality: i < 20 ? 'autonomous' : 'estimated' }), 'a');
      rig.hear(START + i, fix('GNRMC', START + i), 'b');
      rig.hear(START + i, fix('GLRMC', START + i, { quality: 'differential' }), i < 15 ? 'c' : 'unplugged');
    }
    expect(rig.notes[0]).toContain('position now from GL RMC on c; it is better than GP GGA on a');
    expect(rig.view().sources.position).not.toBe('a:GPGGA');
  });

  test('more than 30 m apart for ten seconds: the position is doubtful', () => {
    const rig = new Rig();
    for (let i = 0; i < 40; i++) {
      rig.hear(START + i, fix('GPGGA', START + i), 'udp1');
      rig.hear(START + i, fix('IIGGA', START + i, { north: i < 15 ? 0 : 45 }), 'serial1');
      if (i < 25) expect(rig.view().positionDoubt).toBeUndefined();
      if (i > 27) expect(rig.view().positionDoubt?.since).toBeLessThan(START + 28);
    }
    expect(rig.view().positionDoubt?.reason).toBe('GP GGA on udp1 and II GGA on serial1 are 45 m apart');
    sail(rig, 'GPGGA', 40, 80);
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  test('a substitute that stands elsewhere makes the position doubtful at once', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++) {
      if (i < 20) rig.hear(START + i, fix('GPGGA', START + i), 'udp1');
      if (i > 22) rig.hear(START + i, fix('IIGGA', START + i, { north: 100 }), 'serial1');
    }
    expect(rig.view().positionDoubt?.reason).toBe('II GGA on serial1 is 100 m from where GP GGA on udp1 was');
  });

  test('apart by no more than their own errors is no doubt', () => {
    const rig = new Rig();
    for (let i = 0; i < 60; i++) {
      rig.hear(START + i, fix('GPGGA', START + i), 'udp1');
      rig.hear(START + i, fix('IIGGA', START + i, { north: 45, hdop: 8 }), 'serial1');
    }
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  test('nor by the way that the boat has made between their two fixes', () => {
    const rig = new Rig();
    const under = (t: number, north: number) =>
      fix('GPRMC', START + t, { north: north + 10 * t, sog: 10, cog: 0 });
    for (let t = 1; t < 60; t++) {
      rig.hear(START + t - 0.9, under(t - 0.9, -25), 'serial1');
      rig.hear(START + t, under(t, 0), 'udp1');
      expect(rig.view().positionDoubt).toBeUndefined();
    }
  });

  test('two sentences of one receiver are not two receivers; the same talker on another input is', () => {
    for (const [input, doubtful] of [
      ['udp1', false],
      ['serial1', true],
    ] as const) {
      const rig = new Rig();
      for (let i = 0; i < 40; i++) {
        rig.hear(START + i, fix('GPGGA', START + i), 'udp1');
        rig.hear(START + i, fix('GPGLL', START + i, { north: 60 }), input);
      }
      expect(rig.view().positionDoubt !== undefined).toBe(doubtful);
    }
    const talkers = new Rig();
    for (let i = 0; i < 40; i++) {
      talkers.hear(START + i, fix('GPGGA', START + i));
      talkers.hear(START + i, fix('IIGLL', START + i, { north: 60 }));
    }
    expect(talkers.view().positionDoubt).toBeDefined();
  });
});

describe('sigma of a fix', () => {
  const gga = { kind: 'position', lat: 0, lon: 0, quality: 'autonomous', resolution: 0.0185 } as const;

  /** σ = HDOP·UERE as drms, per axis drms/√2 (reference §8 [C]: drms = 1.414214 σ). */
  test('grows with HDOP', () => {
    expect(sigmaOf(gga, undefined, 1)).toBeCloseTo(3.5 / Math.SQRT2, 4);
    expect(sigmaOf(gga, undefined, 2) / sigmaOf(gga, undefined, 1)).toBeCloseTo(2, 3);
    expect(sigmaOf({ ...gga, hdop: 2 }, undefined, 1)).toBe(sigmaOf(gga, undefined, 2));
  });

  test('is what GST states, but never below the floor nor the rounding of the digits', () => {
    expect(sigmaOf(gga, 4, 1)).toBeCloseTo(4, 4);
    expect(sigmaOf(gga, 0.01, 1)).toBeGreaterThan(0.45);
    expect(sigmaOf({ ...gga, quality: 'rtk', resolution: 1.852 }, 0.01, 1)).toBeGreaterThan(
      1.852 / Math.sqrt(12),
    );
    expect(sigmaOf({ ...gga, quality: 'rtk', resolution: 0.00018 }, 0.01, 1)).toBeLessThan(0.1);
  });

  test('an HDOP or a deviation of 0 says nothing', () => {
    expect(sigmaOf({ ...gga, hdop: 0 }, 0, undefined)).toBe(sigmaOf(gga, undefined, undefined));
  });

  test('is worse the worse the quality', () => {
    const order = (['rtk', 'rtk-float', 'precise', 'differential', 'autonomous', 'estimated'] as const).map(
      (quality) => sigmaOf({ ...gga, quality }, undefined, undefined),
    );
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  /** gpsd NMEA.adoc [F]: lat sd 0.9, lon sd 0.5. */
  test('in the view comes from GST or GSA of the same receiver while they are fresh', () => {
    const rig = new Rig();
    sail(rig, 'GPRMC', 0, 3);
    const untold = rig.view().positionSigma!;
    rig.hear(START + 3, say('IIGST', { kind: 'accuracy', latSigma: 9, lonSigma: 9 }));
    expect(rig.view().positionSigma).toBe(untold);
    rig.hear(START + 3, say('GPGSA', { kind: 'dilution', hdop: 0.9, dimensions: 3 }));
    expect(rig.view().positionSigma).toBeCloseTo(untold * 0.6, 3);
    rig.hear(START + 3, say('GPGST', { kind: 'accuracy', latSigma: 0.9, lonSigma: 0.5 }));
    expect(rig.view().positionSigma).toBeCloseTo(Math.sqrt((0.81 + 0.25) / 2), 3);
    sail(rig, 'GPRMC', 4, 20);
    expect(rig.view().positionSigma).toBe(untold);
  });
});

test('time of day and clock come from the receiver that gives the position', () => {
  const rig = new Rig();
  for (let i = 0; i < 30; i++) {
    rig.hear(START + i, fix('GPRMC', START + i + 100), 'udp1');
    rig.hear(
      START + i + 0.5,
      say('IIZDA', { kind: 'time', timeOfDay: timeOfDay(START + i), date: START - timeOfDay(START) }),
      'serial1',
    );
  }
  expect(rig.view().clockOffset).toBeCloseTo(100, 6);
});
