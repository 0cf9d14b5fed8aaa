import { describe, expect, test } from 'vitest';
import { implausible } from '../../../shared/vessel/step.ts';
import { fix, HOME, off, Rig, START } from './help.ts';
import { gaussian, gaussMarkov } from './noise.ts';

interface Place {
  north: number;
  east: number;
  sog?: number;
  cog?: number;
}

/** Share of seconds in which the position is doubtful, of a receiver that tells these places at 1 Hz. */
function doubtful(seconds: number, place: (t: number) => Place): number {
  const rig = new Rig();
  let count = 0;
  for (let t = 0; t < seconds; t++) {
    rig.hear(START + t, fix('GPRMC', START + t, place(t)));
    if (rig.view().positionDoubt) count++;
  }
  return count / seconds;
}

describe('a step between two fixes', () => {
  const still = { ...HOME, sog: 0, cog: 0 };

  test('of a boat at rest is plausible within noise, and not beyond', () => {
    expect(implausible(still, { ...off(12), sog: 0, cog: 0 }, 1)).toBeUndefined();
    expect(implausible(still, { ...off(18), sog: 0, cog: 0 }, 1)).toBe('it jumped 18 m in 1.0 s');
  });

  test('along the reported course is plausible at any speed, against it is not', () => {
    const fast = { ...HOME, sog: 20, cog: 90 };
    expect(implausible(fast, { ...off(0, 20), sog: 20, cog: 90 }, 1)).toBeUndefined();
    expect(implausible(fast, { ...off(0, -60), sog: 20, cog: 90 }, 1)).toBeDefined();
  });

  test('without reported speed is measured against what a sailing boat does', () => {
    expect(implausible(HOME, off(5), 1)).toBeUndefined();
    expect(implausible(HOME, off(25), 1)).toBeDefined();
  });

  test('after a gap a boat that lay still is expected where she was, one under way may be anywhere she could have sailed', () => {
    expect(implausible(still, { ...off(40), sog: 0 }, 2302)).toBeUndefined();
    expect(implausible(still, { ...off(52), sog: 3.3, cog: 140 }, 2302)).toBe(
      'it came back 52 m away after 2302 s without a fix',
    );
    expect(implausible(still, { ...off(60), sog: 0 }, 15)).toBe(
      'it came back 60 m away after 15 s without a fix',
    );
    expect(implausible({ ...HOME, sog: 3, cog: 0 }, { ...off(0, 240), sog: 3, cog: 40 }, 80)).toBeUndefined();
  });

  test('across the date line is as short as it is', () => {
    const west = { lat: -17, lon: 179.99999, sog: 2, cog: 90 };
    expect(implausible(west, { lat: -17, lon: -179.99999, sog: 2, cog: 90 }, 1)).toBeUndefined();
  });
});

describe('the position is doubtful', () => {
  test('for a minute after a jump, and since the first of several', () => {
    const rig = new Rig();
    const hear = (t: number, north: number) =>
      rig.hear(START + t, fix('GPRMC', START + t, { north, sog: 0, cog: 0 }));
    for (let t = 0; t < 20; t++) hear(t, 0);
    for (let t = 20; t < 30; t++) hear(t, 80);
    for (let t = 30; t < 91; t++) hear(t, 160);
    expect(rig.view(START + 90).positionDoubt).toEqual({
      reason: 'it jumped 80 m in 1.0 s',
      since: START + 20,
    });
    expect(rig.view(START + 91).positionDoubt).toBeUndefined();
  });

  test('while the receiver estimates, uses too few satellites or has a poor HDOP, and not much longer', () => {
    for (const [options, words] of [
      [{ quality: 'estimated' }, 'only estimates'],
      [{ satellites: 3 }, 'only 3 satellites'],
      [{ hdop: 8.5 }, 'HDOP 8.5'],
    ] as const) {
      const rig = new Rig();
      for (let t = 0; t < 60; t++) rig.hear(START + t, fix('GPGGA', START + t, t < 30 ? options : {}));
      expect(rig.view(START + 60).positionDoubt).toBeUndefined();
      const early = new Rig();
      for (let t = 0; t < 30; t++) early.hear(START + t, fix('GPGGA', START + t, options));
      expect(early.view().positionDoubt?.reason).toContain(words);
      expect(early.view().positionDoubt?.since).toBe(START + 1);
    }
  });

  test('not by a relay that tells 0 satellites or an HDOP of 0 beside a good fix', () => {
    const rig = new Rig();
    for (let t = 0; t < 30; t++) rig.hear(START + t, fix('IIGGA', START + t, { satellites: 0, hdop: 0 }));
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  /** Bad sky as measured (reference §4): sigma 40–70 m per axis, correlated over 2–5 min; invented series, behaviour only. */
  test('nearly always under a bad sky, although speed reads 0', () => {
    for (const [sigma, tau] of [
      [40, 120],
      [55, 180],
      [70, 300],
    ] as const) {
      const north = gaussMarkov(sigma, tau, 1);
      const east = gaussMarkov(sigma, tau, 2);
      expect(doubtful(1800, () => ({ north: north(), east: east(), sog: 0, cog: 0 }))).toBeGreaterThan(0.9);
    }
  });

  test('also when the wander is smooth, without a jump in it', () => {
    const wave = (period: number, phase: number) => (t: number) =>
      60 * Math.sin((2 * Math.PI * t) / period + phase);
    const north = wave(240, 0);
    const east = wave(310, 1);
    expect(doubtful(1800, (t) => ({ north: north(t), east: east(t), sog: 0, cog: 0 }))).toBeGreaterThan(0.6);
  });
});

describe('the position is not doubtful', () => {
  /** Typical consumer receiver (reference §4): slow 2.2 m over 30 min, white 0.3 m, steps of 5 m now and then, 1.85 m grid. */
  test('at rest with an ordinary receiver, for six hours', () => {
    const slow = [gaussMarkov(2.2, 1800, 3), gaussMarkov(2.2, 1800, 4)] as const;
    const white = gaussian(5);
    let step = 0;
    const grid = (metres: number) => 1.852 * Math.round(metres / 1.852);
    const place = (t: number) => {
      if (t % 3600 === 1800) step = step === 0 ? 5 : 0;
      return {
        north: grid(slow[0]() + 0.3 * white() + step),
        east: grid(slow[1]() + 0.3 * white()),
        sog: 0,
        cog: 0,
      };
    };
    expect(doubtful(6 * 3600, place)).toBe(0);
  });

  test('with the HDOP of a poor but usable sky', () => {
    const rig = new Rig();
    for (let t = 0; t < 20; t++) rig.hear(START + t, fix('GPGGA', START + t, { hdop: 7.5, satellites: 4 }));
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  test('when she has drifted a little during a gap', () => {
    const rig = new Rig();
    for (let t = 0; t < 20; t++) rig.hear(START + t, fix('GPRMC', START + t, { sog: 0 }));
    for (let t = 32; t < 40; t++) rig.hear(START + t, fix('GPRMC', START + t, { sog: 0, north: 32 }));
    expect(rig.view().positionDoubt).toBeUndefined();
  });

  /** Sheering of 30–300 s (reference §10 [P]) with a speed that the instrument damps over ten seconds. */
  test('while she sheers about her anchor and the speed is damped', () => {
    for (const period of [60, 100, 200]) {
      const omega = (2 * Math.PI) / period;
      let east = 0;
      let north = 0;
      const place = (t: number) => {
        east += (25 * omega * Math.cos(omega * t) - east) / 10;
        north += (8 * 2 * omega * Math.cos(2 * omega * t) - north) / 10;
        return {
          east: 25 * Math.sin(omega * t),
          north: 8 * Math.sin(2 * omega * t),
          sog: Math.hypot(east, north),
          cog: ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360,
        };
      };
      expect(doubtful(1200, place)).toBe(0);
    }
  });

  test('while she sails at 8 kn, tacks and gybes, on a grid of 1.85 m', () => {
    let north = 0;
    let east = 0;
    const white = gaussian(6);
    const place = (t: number) => {
      const cog = Math.floor(t / 40) % 2 === 0 ? 45 : 315;
      north += 4.1 * Math.cos((cog * Math.PI) / 180);
      east += 4.1 * Math.sin((cog * Math.PI) / 180);
      const grid = (metres: number) => 1.852 * Math.round((metres + 0.5 * white()) / 1.852);
      return { north: grid(north), east: grid(east), sog: 4.1, cog };
    };
    expect(doubtful(1200, place)).toBe(0);
  });
});
