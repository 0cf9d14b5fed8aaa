import type { Desk } from '../../../server/api/desk.ts';
import type { Alert } from '../../../shared/alerts/alert.ts';
import type { Command } from '../../../shared/commands.ts';
import type { Answer } from '../../../shared/events.ts';
import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { State } from '../../../shared/state.ts';
import type { Mark, TrackPoint } from '../../../shared/watch/view.ts';

/** An invented boat in an invented anchorage, at anchor for an hour in a fresh breeze against a weak stream, with a depth warning. */
export const AT = 1_760_000_000;
const MARK: LatLon = { lat: -16.501, lon: 179.9902 };
const ROLLER: LatLon = { lat: -16.50112, lon: 179.98985 };
const source = 'sim1:GPGGA';

export function believableAlert(): Alert {
  return {
    id: 'shoal.1',
    kind: 'shoal',
    priority: 'alarm',
    state: 'active-unacknowledged',
    text: 'Depth 2.4 m, limit 2.5 m.',
    value: 2.4,
    limit: 2.5,
    since: AT - 40,
    stateSince: AT - 40,
  };
}

export function believableState(): State {
  return {
    at: AT,
    simulated: 'invented bay',
    report: 'Lying to the wind, 39 m from the anchor, inside the circle of 52 m. One alarm: shoal water.',
    boat: {
      name: 'Test Petrel',
      hull: 'monohull',
      length: 12.8,
      beam: 4.1,
      draft: 1.9,
      roller: { height: 1.4 },
      antenna: { aftOfRoller: 9, toStarboard: 1.5 },
      sounder: { belowWaterline: 0.5, aftOfRoller: 4 },
      windage: { area: 22 },
    },
    cable: { massPerMetre: 2.25, size: 10, workingLoad: 12_500, length: 60 },
    vessel: {
      at: AT,
      antenna: { value: { lat: -16.50114, lon: 179.98977 }, at: AT - 0.4, age: 0.4, source },
      roller: { value: ROLLER, at: AT - 0.4, age: 0.4, source, sigma: 2.1 },
      positionSigma: 2,
      sog: { value: 0.2, at: AT - 0.4, age: 0.4, source: 'sim1:GPRMC' },
      heading: { value: 70, at: AT - 0.2, age: 0.2, source: 'sim1:HCHDG', sigma: 3, from: 'magnetic-model' },
      variation: 12.4,
      windApparent: { value: { angle: -4, speed: 9.8 }, at: AT - 0.5, age: 0.5, source: 'sim1:WIMWV' },
      windGround: { value: { from: 66, speed: 9.7 }, at: AT - 0.5, age: 0.5, source: 'sim1:WIMWV' },
      depth: {
        value: { measured: 1.9, surface: 2.4, keel: 0.5 },
        at: AT - 0.9,
        age: 0.9,
        source: 'sim1:SDDPT',
      },
      ages: { position: 0.4, motion: 0.4, heading: 0.2, wind: 0.5, depth: 0.9 },
      sources: {
        position: source,
        motion: 'sim1:GPRMC',
        heading: 'sim1:HCHDG',
        wind: 'sim1:WIMWV',
        depth: 'sim1:SDDPT',
      },
    },
    watch: {
      phase: 'watching',
      mark: { ...MARK, sigma: 3, at: AT - 3600, by: 'this computer', how: 'here' },
      veered: 42,
      circle: {
        radius: 52,
        computed: true,
        explanation: 'reach 42 m, twice the uncertainty 4 m, margin 6 m',
      },
      limits: { depthBelow: 2.5, windAbove: 15.4 },
      standDown: [],
      distance: { value: 39.2, sigma: 3.6 },
      bearing: 70.5,
      lead: 0.5,
      cable: { reach: { value: 41, sigma: 0.8 }, state: 'fair', certainty: 0.8 },
      lie: { to: 'wind', streamUnknown: 'no log and no measured stream' },
      farthest: 41.3,
    },
    neighbours: [],
    alerts: [believableAlert()],
    inputs: [
      {
        id: 'sim1',
        up: true,
        detail: 'simulated instruments',
        sentences: 36_000,
        rejected: { checksum: 2, malformed: 0, unknown: 7 },
        lastRefusal: 'unknown sentence XYZ',
        lastAt: AT - 0.2,
      },
    ],
    notes: [{ at: AT - 3600, text: 'sim1: connected' }],
    pages: [],
  };
}

export function believableTrack(points = 60): TrackPoint[] {
  return Array.from({ length: points }, (_, index) => ({
    lat: ROLLER.lat + 0.00004 * Math.sin(index / 5),
    lon: ROLLER.lon + 0.00002 * Math.cos(index / 5),
    at: AT - 10 * (points - index),
    heading: 70,
  }));
}

export interface FakeDesk extends Desk {
  /** What the watch knows; tests change it and tell the api. */
  now: State;
  commands: { command: Command; by: string }[];
  wellness: { ok: boolean; reasons: string[] };
  points: TrackPoint[];
  /** Called when a signal has gone out and before its answer is given, as the engine does. */
  signalled: (number: number) => void;
}

/** Answers as the engine would, as far as the api can tell the difference. `pages` is the api's own list. */
export function createFakeDesk(pages: () => State['pages'] = () => []): FakeDesk {
  const refuse = (why: string): Answer => ({ ok: false, problem: 'refused', why });
  let closed: Pick<State, 'watch' | 'weigh'> | undefined;
  const desk: FakeDesk = {
    now: believableState(),
    commands: [],
    wellness: { ok: true, reasons: [] },
    points: believableTrack(),
    signalled: () => {},
    state: () => ({ ...structuredClone(desk.now), pages: pages() }),
    track: (from = 0, to = Number.POSITIVE_INFINITY) =>
      desk.points.filter(({ at }) => at >= from && at <= to),
    health: () => desk.wellness,
    metrics: () => '# TYPE hawse_sentences_total counter\nhawse_sentences_total{input="sim1"} 36000\n',
    async command(command, by) {
      desk.commands.push({ command, by });
      return obey(command, by);
    },
  };

  function obey(command: Command, by: string): Answer {
    const { watch, alerts } = desk.now;
    switch (command.do) {
      case 'mark': {
        const { how } = command;
        if ('fromTrack' in how)
          return { ok: false, problem: 'unavailable', why: 'The track is too short to find the mark from.' };
        const place = 'lat' in how ? { lat: how.lat, lon: how.lon } : desk.now.vessel.roller?.value;
        if (!place) return { ok: false, problem: 'unavailable', why: 'There is no position yet.' };
        const name = 'lat' in how ? 'position' : 'bearing' in how ? 'bearing-and-distance' : 'here';
        const mark: Mark = { ...place, sigma: 5, at: desk.now.at, by, how: name };
        watch.mark = mark;
        return { ok: true, mark };
      }
      case 'watch':
        if (command.change.veered !== undefined) watch.veered = command.change.veered;
        return { ok: true };
      case 'weigh':
        if (desk.now.weigh) return refuse('The weighing monitor is on already.');
        desk.now.weigh = { since: desk.now.at };
        watch.phase = 'weighing';
        return { ok: true };
      case 'stop-weighing':
        if (!desk.now.weigh) return refuse('The weighing monitor is not on.');
        delete desk.now.weigh;
        watch.phase = 'watching';
        return { ok: true };
      case 'aweigh':
        if (!watch.mark) return refuse('There is no mark to close.');
        closed = { watch: structuredClone(watch), ...(desk.now.weigh ? { weigh: desk.now.weigh } : {}) };
        delete watch.mark;
        delete desk.now.weigh;
        watch.phase = 'no-mark';
        return { ok: true };
      case 'undo-aweigh':
        if (!closed) return refuse('There is no "aweigh" to take back.');
        Object.assign(desk.now, closed);
        closed = undefined;
        return { ok: true };
      case 'hold-wind': {
        const { weigh, vessel } = desk.now;
        if (!weigh) return refuse('A wind angle is held while weighing: start to weigh first.');
        const now = vessel.windApparent?.value.angle;
        const angle = command.angle === undefined ? now : command.angle;
        if (angle === undefined)
          return { ok: false, problem: 'unavailable', why: 'There is no apparent wind to hold.' };
        delete weigh.held;
        if (angle !== null) weigh.held = { angle, ...(now === undefined ? {} : { deviation: now - angle }) };
        return { ok: true };
      }
      case 'access':
        return { ok: true };
      case 'departure-check': {
        const { check } = desk.now;
        const strange = command.ticked.find((item) => !check?.items.includes(item));
        if (!check || strange !== undefined) return refuse(`"${strange}" is not on the list.`);
        check.last = { at: desk.now.at, by, ticked: command.ticked, open: [], look: [] };
        return { ok: true };
      }
      case 'departure-items':
        desk.now.check = { measured: [], items: command.items ?? ['Cooling water flows'] };
        return { ok: true };
      case 'tide':
      case 'slacks':
      case 'neighbour':
        return refuse('No call of the interface asks for this yet.');
      case 'signal': {
        const { weigh } = desk.now;
        if (!weigh) return refuse('Signals go to the helm while weighing: start to weigh first.');
        const number = (weigh.lastSignal?.number ?? 0) + 1;
        weigh.lastSignal = { signal: command.signal, number, at: desk.now.at, by };
        desk.signalled(number);
        return { ok: true, signal: number };
      }
      case 'acknowledge':
      case 'silence': {
        const alert = alerts.find(({ id }) => id === command.alert);
        if (!alert)
          return { ok: false, problem: 'unknown', why: `There is no alert "${command.alert}" now.` };
        alert.state = command.do === 'silence' ? 'active-silenced' : 'active-acknowledged';
        return { ok: true };
      }
    }
  }

  return desk;
}
