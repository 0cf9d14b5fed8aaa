import { localPlane } from '../../../../shared/earth/local.ts';
import { directionOf, size, towards, type Vector } from '../../../../shared/quantities/vector.ts';
import type { VesselView } from '../../../../shared/vessel/view.ts';
import { findDrag, watchAnchor } from '../../../../shared/watch/drag/drag.ts';
import { createWatch, type WatchState } from '../../../../shared/watch/state.ts';
import { MARK, START, settings as usual } from '../help.ts';

/** An invented boat that lies as she is told, with an invented receiver: behaviour is tested with her, no physics and no rates. */
export class Lying {
  readonly state: WatchState = createWatch();
  readonly settings = usual({ cable: { massPerMetre: 2.3, veered: 40 } });
  at = START;
  /** Levels in the order in which they came up. */
  readonly levels: string[] = [];
  why = '';
  private before?: Vector;
  private seed: number;
  private slow: Vector = { east: 0, north: 0 };

  constructor(seed = 1, error: Vector = { east: 1, north: -1 }) {
    this.seed = seed;
    this.state.phase = 'watching';
    this.state.since = START;
    this.state.mark = {
      ...localPlane(MARK).toLatLon(error),
      sigma: 3,
      at: START,
      by: 'Ann',
      how: 'position',
    };
  }

  /** Where she lies from MARK at a moment (s after the start); the antenna is in the bow, so that nothing but the story counts. */
  lie(seconds: number, where: (t: number) => Vector, told: (t: number) => Partial<Told> = () => ({})): this {
    const plane = localPlane(MARK);
    for (let i = 0; i < seconds; i++) {
      this.at++;
      const t = this.at - START;
      const { error = { east: 0, north: 0 }, doubt, velocity = true, wind = 10 } = told(t);
      for (const axis of ['east', 'north'] as const)
        this.slow[axis] += -this.slow[axis] / 3600 + 0.6 * Math.sqrt(2 / 3600) * this.normal();
      const true_ = where(t);
      const moved = this.before ?? true_;
      this.before = true_;
      const seen = (axis: keyof Vector) => true_[axis] + this.slow[axis] + error[axis] + 0.15 * this.normal();
      const v = {
        east: true_.east - moved.east + 0.03 * this.normal(),
        north: true_.north - moved.north + 0.03 * this.normal(),
      };
      const known = <T>(value: T) => ({ value, at: this.at, age: 0, source: 'a' });
      const place = known(plane.toLatLon({ east: seen('east'), north: seen('north') }));
      const view: VesselView = {
        at: this.at,
        antenna: place,
        roller: { ...place, sigma: 2 },
        ...(velocity ? { sog: known(size(v)), cog: known(directionOf(v)) } : {}),
        heading: { ...known(180), sigma: 3, from: 'true' },
        depth: known({ measured: 8, surface: 8 }),
        windGround: known({ speed: wind, from: 180 }),
        ...(doubt ? { positionDoubt: { reason: doubt, since: this.at } } : {}),
        ages: {},
        sources: {},
      };
      watchAnchor(this.state, this.settings, view);
      const found = findDrag({
        state: { ...this.state, since: START },
        settings: this.settings,
        vessel: view,
        at: this.at,
        newSecond: true,
      });
      const level = found?.priority ?? 'none';
      if (level !== (this.levels.at(-1) ?? 'none')) {
        this.levels.push(level);
        if (found) this.why = found.text;
      }
    }
    return this;
  }

  private normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.uniform())) * Math.cos(2 * Math.PI * this.uniform());
  }
  /** Park & Miller, Comm. ACM 31 (1988). */
  private uniform(): number {
    this.seed = (this.seed * 48_271) % 2_147_483_647;
    return this.seed / 2_147_483_647;
  }
}

export interface Told {
  /** Error of the receiver beside its slow one, m. */
  error: Vector;
  doubt: string;
  velocity: boolean;
  wind: number;
}

/** On an arc north of the anchor, sheering by `sheer` degrees each way in four minutes; `farther` metres beyond 37 m. */
export const held =
  (sheer = 20, farther: (t: number) => number = () => 0) =>
  (t: number): Vector => {
    const s = Math.sin((2 * Math.PI * t) / 240);
    return towards(37 - 1.5 * s * s + farther(t), (sheer * s + 360) % 360);
  };
export const ramp =
  (from: number, metresPerSecond: number, most = Number.POSITIVE_INFINITY) =>
  (t: number) =>
    Math.min(most, Math.max(0, t - from) * metresPerSecond);
