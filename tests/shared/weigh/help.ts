import type { Finding } from '../../../shared/alerts/alert.ts';
import { destination } from '../../../shared/earth/geodesic.ts';
import type { Event } from '../../../shared/events.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { Settings } from '../../../shared/settings.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';
import {
  createWeigh,
  findings,
  type Given,
  hearCounter,
  onFix,
  signal,
  type WeighState,
  weighView,
} from '../../../shared/weigh/weigh.ts';

/** An invented anchorage and boat: behaviour is tested with them, no physics. */
export const START = 1_700_000_000;
export const MARK: LatLon = { lat: -36, lon: 163.5 };

export const settings = (hull: Settings['boat']['hull'] = 'monohull'): Settings => ({
  boat: {
    name: 'Sandpiper',
    hull,
    length: 12,
    beam: 4,
    draft: 1.9,
    roller: { height: 1.5 },
    antenna: { aftOfRoller: 9, toStarboard: 0 },
    sounder: { aftOfRoller: 4 },
    windage: {},
  },
  cable: { massPerMetre: 2.3, counter: 'CHAIN' },
  limits: {},
  circle: { margin: 6 },
  deviation: [],
  checksumOptional: [],
});

/** Where the roller is: metres from the anchor, in the direction `from` (default: south of it, so that the anchor bears north). */
export interface Place {
  distance?: number | undefined;
  from?: number;
  heading?: number | undefined;
  wind?: { from: number; speed: number } | undefined;
  doubt?: string;
  /** Depth from the surface and below the keel; 6.5 m makes a height of 8. */
  depth?: number | undefined;
}

export class Boat {
  state: WeighState = createWeigh(START, 'Ann');
  settings: Settings;
  given: Given = { mark: { ...MARK, sigma: 1 }, veered: 40 };
  at = START;
  found: Finding[] = [];
  events: Event[] = [];
  /** Sigma of the roller, metres. */
  sigma = 0.5;
  /** The sounder is silent. */
  depthless = false;
  /** Speed by the log, m/s. */
  logSpeed: number | undefined;
  private last: Place = {};

  constructor(hull?: Settings['boat']['hull']) {
    this.settings = settings(hull);
  }

  /** Lives some seconds, a fix each; returns "second +kind" and "second -kind". */
  pass(seconds: number, place: Place | ((second: number) => Place)): string[] {
    const changes: string[] = [];
    for (let second = 1; second <= seconds; second++) {
      this.at++;
      this.last = typeof place === 'function' ? place(second) : place;
      if (this.last.distance !== undefined)
        this.events.push(...onFix(this.state, this.settings, this.view(), this.given));
      const before = this.found.map(({ kind }) => kind);
      this.found = findings(this.state, this.settings, this.view(), this.given, this.at);
      const after = this.found.map(({ kind }) => kind);
      for (const kind of after) if (!before.includes(kind)) changes.push(`${second} +${kind}`);
      for (const kind of before) if (!after.includes(kind)) changes.push(`${second} -${kind}`);
    }
    return changes;
  }

  signal(text: string) {
    const { events, number } = signal(this.state, this.settings, this.given, text, this.at, 'Bo');
    this.events.push(...events);
    return number;
  }

  counter(metres: number, name = 'CHAIN'): void {
    const observations = [{ kind: 'transducer', type: 'D', unit: 'M', name, value: metres } as const];
    hearCounter(this.state, this.settings, { ok: true, talker: 'II', id: 'XDR', observations }, this.at);
  }

  now() {
    return weighView(this.state, this.settings, this.view(), this.given);
  }

  view(): VesselView {
    const { at } = this;
    const { distance, from = 180, heading, wind, doubt, depth = 6.5 } = this.last;
    const known = <T>(value: T) => ({ value, at, age: 0, source: 'test' });
    return {
      at,
      ...(distance === undefined
        ? {}
        : {
            roller: { ...known(destination(MARK, from, distance)), sigma: this.sigma },
            positionSigma: this.sigma,
          }),
      ...(heading === undefined ? {} : { heading: { ...known(heading), sigma: 2, from: 'true' as const } }),
      ...(wind ? { windGround: known(wind), windApparent: known({ angle: 20, speed: wind.speed }) } : {}),
      ...(this.depthless
        ? {}
        : { depth: known({ measured: depth - 0.5, surface: depth, keel: depth - 1.9 }) }),
      ...(this.logSpeed === undefined ? {} : { waterSpeed: known({ ahead: this.logSpeed }) }),
      ...(doubt === undefined ? {} : { positionDoubt: { reason: doubt, since: at } }),
      ages: {},
      sources: {},
    };
  }
}
