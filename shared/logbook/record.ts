import { list } from '../alerts/alerts.ts';
import type { EngineState } from '../engine.ts';
import { view } from '../vessel/vessel.ts';
import type { VesselView } from '../vessel/view.ts';
import { watchView } from '../watch/watch.ts';
import { countAlerts } from './alerts.ts';
import type { Gap, Night, NightSettings, Sample } from './night.ts';

/** Seconds between samples: half a minute shows every sheer's envelope, and a night has 1440 of them. */
export const STEP = 30;

/** A night while it is kept: what is told of it, and what has to be remembered to go on. Plain data. */
export interface NightRecord {
  night: Omit<Night, 'strips' | 'checksums' | 'step'>;
  running: Running;
}

export interface Running {
  /** Last whole second that was looked at, and last block of `STEP` seconds that has its sample. */
  second: number;
  block: number;
  /** Time of the last line, and of a start of hawse since. */
  lineAt?: number;
  startedAt?: number;
  /** Index in the gaps of those that go on. */
  open: Partial<Record<Gap['kind'], number>>;
  /** Extremes since the last sample. */
  extremes: Pick<Sample, 'distanceMost' | 'depthLeast' | 'windMost' | 'load'>;
  /** Stream as last told by a sample. */
  drift?: number;
  set?: number;
  /** What the inputs had counted when the night began. */
  before: Counts;
  /** The settings in force, as JSON: a change is told. */
  settings: string;
}

interface Counts {
  sentences: number;
  checksum: number;
  malformed: number;
  unknown: number;
}

export interface Origin {
  id: string;
  origin: 'watch' | 'import';
  version: string;
  simulated?: string;
  place?: string;
}

/** Begins the record of the night that the engine is in; undefined when it has no mark. `at`: the input that set it, UNIX seconds. */
export function beginNight(
  engine: EngineState,
  at: number,
  told: Origin,
  look = (then: number): VesselView => view(engine.vessel, engine.settings, then),
): NightRecord | undefined {
  const { mark, since } = engine.watch;
  if (!mark || since === undefined) return undefined;
  const { id, origin, version, simulated, place } = told;
  const before = countsOf(engine);
  const alerts = list(engine.alerts).map((alert) => ({
    id: alert.id,
    kind: alert.kind,
    priority: alert.priority,
    text: alert.text,
    ...(alert.value === undefined ? {} : { value: alert.value }),
    ...(alert.limit === undefined ? {} : { limit: alert.limit }),
    from: alert.since,
    ...(alert.acknowledgedBy === undefined ? {} : { acknowledgedBy: alert.acknowledgedBy }),
    ...(alert.acknowledgedAt === undefined ? {} : { acknowledgedAt: alert.acknowledgedAt }),
    changes: [{ at: alert.stateSince, state: alert.state, priority: alert.priority, text: alert.text }],
  }));
  return {
    night: {
      summary: {
        id,
        origin,
        ...(simulated === undefined ? {} : { simulated }),
        ...(place === undefined ? {} : { place }),
        from: since,
        upTo: at,
        boat: engine.settings.boat.name,
        mark: { ...mark },
        marks: 0,
        alerts: countAlerts(alerts),
        gaps: { count: 0, seconds: {} },
        sentences: 0,
        rejected: { checksum: 0, malformed: 0, unknown: 0 },
        versions: [version],
      },
      alerts,
      story: [],
      settings: settingsOf(engine, look(at)),
      gaps: [],
    },
    running: {
      second: Math.floor(at),
      block: Math.floor(at / STEP) - 1,
      open: {},
      extremes: {},
      before,
      settings: JSON.stringify(engine.settings),
    },
  };
}

function settingsOf(engine: EngineState, vessel: VesselView): NightSettings {
  const { boat, cable } = engine.settings;
  const { limits, circle, veered } = watchView(engine.watch, engine.settings, vessel);
  return {
    boat: structuredClone(boat),
    cable: structuredClone(cable),
    limits,
    ...(circle ? { circle } : {}),
    ...(veered === undefined ? {} : { veered }),
  };
}

export function countsOf({ inputs }: EngineState): Counts {
  const counts = { sentences: 0, checksum: 0, malformed: 0, unknown: 0 };
  for (const { sentences, rejected } of inputs) {
    counts.sentences += sentences;
    counts.checksum += rejected.checksum;
    counts.malformed += rejected.malformed;
    counts.unknown += rejected.unknown;
  }
  return counts;
}
