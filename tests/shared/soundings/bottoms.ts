import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { localPlane } from '../../../shared/earth/local.ts';
import { towards } from '../../../shared/quantities/vector.ts';
import type { Boat } from '../../../shared/settings.ts';
import { createSoundings, type Ground, passSoundings, sound } from '../../../shared/soundings/soundings.ts';
import type { SoundingsView } from '../../../shared/soundings/view.ts';

/** Simulated nights over simulated bottoms, for behaviour: depths at datum (m) as a function of metres east and north of the anchor. */
export type Bottom = (east: number, north: number) => number;

export interface Draw {
  uniform(): number;
  normal(): number;
}

export function draws(seed: number): Draw {
  const generator = xoroshiro128plus(seed);
  for (let i = 0; i < 20; i++) generator.next();
  const uniform = () => ((generator.next() >>> 0) + 0.5) / 2 ** 32;
  return {
    uniform,
    normal: () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}

/** A slope in any direction. */
export function sloping(draw: Draw): Bottom {
  const steep = 0.03 * draw.uniform();
  const d = 360 * draw.uniform();
  const { east, north } = towards(steep, d);
  const depth = 1.7 + 3 * draw.uniform();
  return (x, y) => Math.max(0.2, depth + east * x + north * y);
}

/** A slope with some lumps of up to 1.2 m and 8 to 25 m across. */
export function lumpy(draw: Draw): Bottom {
  const under = sloping(draw);
  const lumps = Array.from({ length: 6 }, () => ({
    ...towards(60 * Math.sqrt(draw.uniform()), 360 * draw.uniform()),
    height: 1.2 * draw.uniform(),
    width: 8 + 17 * draw.uniform(),
  }));
  return (x, y) => {
    let depth = under(x, y);
    for (const { east, north, height, width } of lumps)
      depth -= height * Math.exp(-(((x - east) ** 2 + (y - north) ** 2) / (2 * (width / 2) ** 2)));
    return Math.max(0.2, depth);
  };
}

export const ANCHOR = { lat: 48.5, lon: -5.25 };
export const REACH = 35;
export const boat: Boat = {
  name: 'Sandpiper',
  hull: 'monohull',
  length: 12,
  beam: 4,
  draft: 1.9,
  roller: { height: 1.3 },
  antenna: { aftOfRoller: 9, toStarboard: 0 },
  sounder: { belowWaterline: 0.5, aftOfRoller: 4 },
  windage: {},
};
const TIDE = { range: 3, period: 44_714 };
const HOUR = 3600;
const height = (at: number) => TIDE.range / 2 + (TIDE.range / 2) * Math.cos((2 * Math.PI * at) / TIDE.period);
const START = 1_700_000_000;

export interface Night {
  view: SoundingsView;
  /** Depths at datum that are true: the least over the whole circle, and along the keel through the second half of the night. */
  circleLeast: number;
  keelLeast: number;
  lowHeight: number;
  truthAt(east: number, north: number): number;
}

/**
 * She anchors at high water, swings about for five hours (the wind shifts slowly, she sheers), and lies on to the next high water; the
 * view is as of two hours before low water. Sounder: 5 cm noise and 10 cm of waves; one sounding in twenty is a fish or weed.
 */
export function night(seed: number, bottomOf: (draw: Draw) => Bottom, weed = 0.05): Night {
  const draw = draws(seed);
  const bottom = bottomOf(draw);
  const state = createSoundings();
  const mid = { from: 360 * draw.uniform(), swing: 20 + 160 * draw.uniform(), phase: 6.28 * draw.uniform() };
  const gnss = { east: 2 * draw.normal(), north: 2 * draw.normal() };
  const plane = localPlane(ANCHOR);
  let fishUntil = 0;
  let fish = 0;
  let view: SoundingsView | undefined;
  let keelLeast = Number.POSITIVE_INFINITY;
  const lowAt = TIDE.period / 2;
  for (let t = 0; t < TIDE.period; t += 3) {
    const from = mid.from + (mid.swing / 2) * Math.sin((2 * Math.PI * t) / 30_000 + mid.phase);
    const sheer = 22 * Math.sin((2 * Math.PI * t) / 90);
    const away = from + 180 + sheer / 2;
    const heading = (((from + sheer) % 360) + 360) % 360;
    const reach = REACH * (0.9 + 0.1 * Math.sin((2 * Math.PI * t) / 1000));
    const bow = towards(reach, away);
    const aft = towards(-boat.sounder.aftOfRoller, heading);
    const keel = { east: bow.east + 1.25 * aft.east, north: bow.north + 1.25 * aft.north };
    if (t > lowAt - 2 * HOUR) keelLeast = Math.min(keelLeast, bottom(keel.east, keel.north) + height(t));
    if (t > lowAt - 2 * HOUR) continue;
    const at = START + t;
    if (t > fishUntil && draw.uniform() < weed / 3) {
      fishUntil = t + 9;
      fish = 0.5 + 2 * draw.uniform();
    }
    const surface =
      bottom(bow.east + aft.east, bow.north + aft.north) +
      height(t) +
      0.05 * draw.normal() +
      0.1 * Math.sin(t) -
      (t <= fishUntil ? fish : 0);
    const roller = plane.toLatLon({ east: bow.east + gnss.east, north: bow.north + gnss.north });
    const ground: Ground = {
      anchor: ANCHOR,
      radius: REACH + boat.length,
      height: height(t),
      low: { at: START + lowAt, height: height(lowAt) },
    };
    const known = <T>(value: T) => ({ value, at, age: 0, source: 'test' });
    sound(
      state,
      boat,
      {
        at,
        roller: { ...known(roller), sigma: 2 },
        heading: { ...known(heading), sigma: 2, from: 'true' },
        ...(surface > 0 ? { depth: known({ measured: surface - 0.5, surface }) } : {}),
        ages: {},
        sources: {},
      },
      ground,
    );
    if (t > lowAt - 2 * HOUR - 3) {
      passSoundings(state, boat.draft, at, () => ground);
      view = state.view;
    }
  }
  let circleLeast = Number.POSITIVE_INFINITY;
  for (let x = -47; x <= 47; x += 1)
    for (let y = -47; y <= 47; y += 1)
      if (Math.hypot(x, y) <= REACH + boat.length) circleLeast = Math.min(circleLeast, bottom(x, y));
  return { view: view!, circleLeast, keelLeast, lowHeight: height(lowAt), truthAt: bottom };
}
