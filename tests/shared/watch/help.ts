import type { AlertKind, Finding } from '../../../shared/alerts/alert.ts';
import { destination } from '../../../shared/earth/geodesic.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { Settings } from '../../../shared/settings.ts';
import type { Quantity, VesselView } from '../../../shared/vessel/view.ts';
import {
  command,
  createWatch,
  findings,
  onFix,
  type WatchCommand,
  type WatchState,
} from '../../../shared/watch/watch.ts';

/** An invented anchorage and an invented boat; behaviour is tested with them, no physics. */
export const START = 1_700_000_000;
export const MARK: LatLon = { lat: -36, lon: 163.5 };

export const settings = (more: Partial<Settings> = {}): Settings => ({
  boat: {
    name: 'Sandpiper',
    hull: 'monohull',
    length: 12,
    beam: 4,
    draft: 1.9,
    roller: { height: 1.5 },
    antenna: { aftOfRoller: 9, toStarboard: 0 },
    sounder: { aftOfRoller: 4 },
    windage: {},
  },
  cable: { massPerMetre: 2.3 },
  limits: {},
  circle: { radius: 50, margin: 6 },
  deviation: [],
  checksumOptional: [],
  ...more,
});

/** What the instruments tell in one second; absent: nothing. */
export interface Told {
  /** Roller north of the mark, metres. */
  fix?: number | undefined;
  heading?: number;
  depth?: { measured: number; surface?: number };
  wind?: { speed: number; from: number };
  apparent?: number;
  doubt?: string;
}

/** A fake vessel room drops what is older than this. */
const FRESH = 5;

/**
 * A boat whose instruments tell something each second, a fifth of a second after it. The watch is asked as the engine asks it:
 * at each whole second, and at each fix after `onFix`.
 */
export class Afloat {
  readonly state: WatchState = createWatch();
  readonly settings: Settings;
  at = START;
  found: Finding[] = [];
  private readonly last: Told = {};
  private readonly told: Partial<Record<Quantity | 'apparent', number>> = {};

  constructor(settings: Settings) {
    this.settings = settings;
  }

  /** The watch set on MARK at START. */
  static watching(settings: Settings): Afloat {
    const boat = new Afloat(settings);
    boat.order({ do: 'mark', how: { ...MARK, sigma: 3 } });
    return boat;
  }

  order(order: WatchCommand, by = 'Ann') {
    return command(this.state, this.settings, this.view(), order, this.at, by);
  }

  /**
   * Lives on for some seconds; returns when which kind of finding came (+) or went (-), in seconds since the call, as
   * "4.2 +outside-circle".
   */
  pass(seconds: number, told: Told | ((second: number) => Told)): string[] {
    const began = Math.floor(this.at);
    const changes: string[] = [];
    for (let second = 1; second <= seconds; second++) {
      const now = typeof told === 'function' ? told(second - 1) : told;
      this.hear(now, began + second - 0.8);
      if (now.fix !== undefined) {
        onFix(this.state, this.settings, this.view());
        this.judge(changes, began);
      }
      this.at = began + second;
      this.judge(changes, began);
    }
    return changes;
  }

  kinds(): AlertKind[] {
    return this.found.map(({ kind }) => kind);
  }

  text(kind: AlertKind): string | undefined {
    return this.found.find((finding) => finding.kind === kind)?.text;
  }

  private judge(changes: string[], began: number): void {
    const before = this.kinds();
    this.found = findings(this.state, this.settings, this.view(), this.at);
    const after = this.kinds();
    const time = (this.at - began).toFixed(1);
    for (const kind of after) if (!before.includes(kind)) changes.push(`${time} +${kind}`);
    for (const kind of before) if (!after.includes(kind)) changes.push(`${time} -${kind}`);
  }

  private hear(told: Told, at: number): void {
    this.at = at;
    const { last } = this;
    if (told.doubt === undefined) delete last.doubt;
    Object.assign(last, Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined)));
    if (told.fix !== undefined) this.told.position = at;
    if (told.heading !== undefined) this.told.heading = at;
    if (told.depth !== undefined) this.told.depth = at;
    if (told.wind !== undefined || told.apparent !== undefined) this.told.wind = at;
    if (told.wind !== undefined) this.told.motion = at;
    if (told.apparent !== undefined) this.told.apparent = at;
  }

  view(): VesselView {
    const { at, last, told } = this;
    const known = <T>(value: T, time: number | undefined) =>
      time === undefined || at - time > FRESH
        ? undefined
        : { value, at: time, age: at - time, source: 'test' };
    const spot = known(last.fix === undefined ? MARK : destination(MARK, 0, last.fix), told.position);
    const heading = known(last.heading ?? 0, told.heading);
    const depth = known(last.depth ?? { measured: 0 }, told.depth);
    const wind = known(last.wind ?? { speed: 0, from: 0 }, told.motion);
    const apparent = known({ angle: 0, speed: last.apparent ?? 0 }, told.apparent);
    const ages: VesselView['ages'] = {};
    for (const quantity of ['position', 'heading', 'depth', 'wind'] as const) {
      const time = told[quantity];
      if (time !== undefined) ages[quantity] = at - time;
    }
    return {
      at,
      ...(spot ? { antenna: spot, roller: { ...spot, sigma: 2 }, positionSigma: 2 } : {}),
      ...(heading ? { heading: { ...heading, sigma: 2, from: 'true' as const } } : {}),
      ...(depth ? { depth } : {}),
      ...(wind ? { windGround: wind } : {}),
      ...(apparent ? { windApparent: apparent } : {}),
      ...(last.doubt === undefined ? {} : { positionDoubt: { reason: last.doubt, since: at } }),
      ages,
      sources: {},
    };
  }
}
