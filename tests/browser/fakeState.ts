import type { Alert } from '../../shared/alerts/alert.ts';
import type { PageView, State } from '../../shared/state.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';

/** An invented boat in an invented anchorage, astride the 180th meridian to keep the plan honest. */
export const MARK = { lat: -16.5, lon: 179.9999 };

/** What the drag watch thinks of the anchor, but for its place. */
export const ESTIMATED = {
  moved: 6,
  sigma: 2,
  probability: 0.7,
  east: 0,
  north: 4,
  ellipse: { major: 2.5, minor: 1.5, bearing: 0 },
};
const RADIUS = 42;
const METRES_PER_DEGREE = 111_200;

/** The roller `distance` metres from the mark towards `direction`: good enough for a picture, no claim to geodesy. */
function roller(distance: number, direction: number): { lat: number; lon: number } {
  const a = (direction * Math.PI) / 180;
  const lon =
    MARK.lon + (distance * Math.sin(a)) / (METRES_PER_DEGREE * Math.cos((MARK.lat * Math.PI) / 180));
  return {
    lat: MARK.lat + (distance * Math.cos(a)) / METRES_PER_DEGREE,
    lon: lon > 180 ? lon - 360 : lon,
  };
}

/** The boat sheering from side to side at the end of her cable, as she lay at `t` seconds. */
export function lying(t: number): { distance: number; direction: number; heading: number } {
  const sheer = 24 * Math.sin(t / 38) + 9 * Math.sin(t / 171);
  return {
    distance: 31 + 1.8 * Math.sin(t / 23),
    direction: (52 + sheer + 360) % 360,
    heading: (232 + sheer * 0.4 + 22 * Math.cos(t / 38) + 360) % 360,
  };
}

export function trackUntil(at: number, seconds: number): TrackPoint[] {
  return Array.from({ length: Math.floor(seconds / 5) }, (_, i) => {
    const t = at - seconds + i * 5;
    const { distance, direction, heading } = lying(t);
    return { at: t, ...roller(distance, direction), heading };
  });
}

/** Hours of a quiet night, a point a minute, each telling how she lay. */
export function nightUntil(at: number, hours: number): TrackPoint[] {
  return trackUntil(at, hours * 3600).flatMap((point, i) => {
    if (i % 12 > 0) return [];
    const wind = 7 + 2 * Math.sin(point.at / 900);
    const distance = lying(point.at).distance;
    const lie = { distance, reach: 34 + wind / 7, moved: 0.5, probability: 0.01 };
    return [{ ...point, wind, windFrom: Math.round(230 + 15 * Math.sin(point.at / 700)), lie }];
  });
}

/** Everything known and nothing wrong, at UNIX time `at`; what happened before `begun` happened at times that stay as they are. */
export function calmState(at: number, begun = at): State {
  const { distance, direction, heading } = lying(at);
  const bearing = (direction + 180) % 360;
  const known = <T>(value: T, age: number, source: string) => ({ value, at: at - age, age, source });
  return {
    at,
    report: `Holding. ${Math.round(distance)} m to the anchor, ${Math.round(RADIUS - distance)} m inside the circle; wind 14 kn from ${Math.round(230)}°.`,
    simulated: 'Whistling Bight, evening breeze',
    boat: {
      name: 'Sandpiper',
      hull: 'monohull',
      length: 12.8,
      beam: 4.1,
      draft: 1.9,
      roller: { height: 1.4 },
      antenna: { aftOfRoller: 9, toStarboard: 1.5 },
      sounder: { belowWaterline: 0.6, aftOfRoller: 4 },
      windage: {},
    },
    cable: { massPerMetre: 2.25, size: 10, workingLoad: 12_500, length: 60 },
    vessel: {
      at,
      antenna: known(roller(distance + 9, direction), 0.3, 'udp1:GPGGA'),
      roller: { ...known(roller(distance, direction), 0.3, 'udp1:GPGGA'), sigma: 2.6 },
      positionSigma: 2.4,
      sog: known(0.21, 0.3, 'udp1:GPRMC'),
      cog: known(312, 0.3, 'udp1:GPRMC'),
      heading: { ...known(heading, 0.1, 'udp1:HEHDT'), sigma: 2, from: 'true' },
      windApparent: known({ angle: -12, speed: 7.2 }, 0.5, 'udp1:WIMWV'),
      windGround: known({ from: 230, speed: 7.2 }, 0.5, 'udp1:WIMWV'),
      stream: known({ set: 310, drift: 0.56 }, 0.8, 'udp1:VDR'),
      depth: known({ measured: 5.1, surface: 5.7, keel: 3.8 }, 0.9, 'udp1:SDDPT'),
      waterTemperature: known(297.6, 2, 'udp1:YXMTW'),
      ages: {
        position: 0.3,
        motion: 0.3,
        heading: 0.1,
        wind: 0.5,
        depth: 0.9,
        stream: 0.8,
        'water-temperature': 2,
      },
      sources: {
        position: 'udp1:GPGGA',
        motion: 'udp1:GPRMC',
        heading: 'udp1:HEHDT',
        wind: 'udp1:WIMWV',
        depth: 'udp1:SDDPT',
        stream: 'udp1:VDVDR',
        'water-temperature': 'udp1:YXMTW',
      },
    },
    watch: {
      phase: 'watching',
      mark: { ...MARK, sigma: 2.8, at: begun - 9 * 3600, by: 'helm', how: 'here' },
      veered: 38,
      circle: {
        radius: RADIUS,
        computed: true,
        explanation:
          '35 m that 38 m of cable reach in 5.7 m of water, and 7 m for the uncertainty of mark and fix.',
      },
      standDown: [],
      limits: { depthBelow: 2.5, windAbove: 12.86, windShift: 60 },
      distance: { value: distance, sigma: 3.8 },
      bearing,
      lead: ((((bearing - heading + 180) % 360) + 360) % 360) - 180,
      farthest: 35.2,
    },
    neighbours: [],
    alerts: [],
    inputs: [
      {
        id: 'udp1',
        up: true,
        detail: 'UDP port 10110',
        sentences: 123_456,
        rejected: { checksum: 3, malformed: 1, unknown: 812 },
        lastRefusal:
          'the checksum is 4F, the sentence adds up to 4E: $GPGGA,031200.00,1630.0000,S,17959.9940,E,1,09*4F',
        lastAt: at - 0.1,
      },
      {
        id: 'serial1',
        up: false,
        detail: '/dev/ttyUSB0 is not there',
        sentences: 0,
        rejected: { checksum: 0, malformed: 0, unknown: 0 },
      },
    ],
    notes: [
      { at: begun - 4000, text: 'udp1: listening on port 10110' },
      { at: begun - 3990, text: 'heading now from udp1:HEHDT' },
      { at: begun - 60, text: 'serial1: /dev/ttyUSB0 is not there' },
    ],
    pages: [],
  };
}

export function outsideCircle(at: number): Alert {
  return {
    id: 'outside-circle.1',
    kind: 'outside-circle',
    priority: 'alarm',
    state: 'active-unacknowledged',
    text: 'The roller is 46.3 m from the mark; the circle is 42.0 m.',
    value: 46.3,
    limit: 42,
    since: at,
    stateSince: at,
  };
}

export function strongWind(at: number): Alert {
  return {
    id: 'wind-speed.1',
    kind: 'wind-speed',
    priority: 'warning',
    state: 'active-unacknowledged',
    text: 'Wind 27 kn over ground; the limit is 25 kn.',
    value: 13.9,
    limit: 12.86,
    since: at,
    stateSince: at,
  };
}

export function slowClock(at: number): Alert {
  return {
    id: 'clock.1',
    kind: 'clock',
    priority: 'caution',
    state: 'active-acknowledged',
    text: "The computer's clock is 7 s slow of the receiver's UTC. Times shown follow the receiver.",
    value: 7,
    limit: 5,
    since: at,
    stateSince: at,
  };
}

/** A page as the boat lists it: in view, heard, its screen kept on, not armed. */
export function phoneView(told: Partial<PageView> & Pick<PageView, 'id' | 'name' | 'lastAt'>): PageView {
  return {
    page: 'watch',
    visible: true,
    sound: true,
    armed: false,
    wakeLock: 'held',
    silent: false,
    mayAnswer: true,
    ...told,
  };
}
