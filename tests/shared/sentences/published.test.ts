import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { direction, signed } from '../../../shared/quantities/angle.ts';
import { FATHOM, FOOT, toKnots } from '../../../shared/quantities/units.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import type { Sentence } from '../../../shared/sentences/decoded.ts';
import type { AlertSentence, FixQuality } from '../../../shared/sentences/observation.ts';
import { sharedMaterial } from '../../recorded.ts';
import { accepted, only, refused } from './read.ts';

interface Row {
  id: string;
  sentence: string;
  source: string;
  checksum_computed: string;
  checksum_ok: boolean;
  expect: Record<string, unknown>;
}

/** One expected value against what was decoded; throws or fails an expectation when they differ. */
type Check = (decoded: Sentence, expected: unknown, row: Row) => void;

const near = (digits: number, of: (decoded: Sentence) => number | undefined): Check => {
  return (decoded, expected) => {
    const value = of(decoded);
    if (expected === null) expect(value).toBeUndefined();
    else expect(value).toBeCloseTo(expected as number, digits);
  };
};
const same = (of: (decoded: Sentence) => unknown): Check => {
  return (decoded, expected) => expect(of(decoded)).toEqual(expected === null ? undefined : expected);
};

const time = ({ observations }: Sentence) => only(observations, 'time');
const position = ({ observations }: Sentence) => only(observations, 'position');
const none = ({ observations }: Sentence) => only(observations, 'no-position');
const motion = ({ observations }: Sentence) => only(observations, 'motion');
const magnetic = ({ observations }: Sentence) => only(observations, 'heading-magnetic');
const variation = ({ observations }: Sentence) => only(observations, 'variation')?.variation;
const heading = ({ observations }: Sentence) => only(observations, 'heading')?.heading;
const wind = ({ observations }: Sentence) =>
  only(observations, 'wind-apparent') ?? only(observations, 'wind-theoretical');
const ground = ({ observations }: Sentence) => only(observations, 'wind-ground');
const depth = ({ observations }: Sentence) => only(observations, 'depth');
const waterSpeed = ({ observations }: Sentence) => only(observations, 'water-speed');
const groundSpeed = ({ observations }: Sentence) => only(observations, 'ground-speed');
const stream = ({ observations }: Sentence) => only(observations, 'stream');
const part = ({ observations }: Sentence) => only(observations, 'ais-fragment');
const alert = ({ observations }: Sentence) =>
  only(observations, 'alert-sentence')?.sentence as (AlertSentence & Record<string, unknown>) | undefined;

const knotsOf = (metresPerSecond: number | undefined) =>
  metresPerSecond === undefined ? undefined : toKnots(metresPerSecond);
const per = (value: number | undefined, unit: number) => (value === undefined ? undefined : value / unit);
/** `00:10:43.00` as seconds of the day. */
const secondsOf = (clock: string) =>
  clock.split(':').reduce((seconds, piece) => seconds * 60 + Number(piece), 0);

const checkTime: Check = (decoded, expected) => {
  const told = alert(decoded)?.timeOfDay ?? time(decoded)?.timeOfDay;
  if (expected === null) expect(told).toBeUndefined();
  else expect(told).toBeCloseTo(secondsOf(expected as string), 6);
};
const checkDateTime: Check = (decoded, expected) => {
  const told = time(decoded);
  expect(told?.date).toBeDefined();
  expect(told!.date! + told!.timeOfDay).toBeCloseTo(Date.parse(expected as string) / 1000, 6);
};

const QUALITY: Record<string, FixQuality> = {
  1: 'autonomous',
  A: 'autonomous',
  AN: 'autonomous',
  D: 'differential',
  RR: 'rtk',
};
const checkQuality: Check = (decoded, expected) => {
  expect(position(decoded)?.quality).toBe(expected === null ? 'autonomous' : QUALITY[String(expected)]);
};
/** A mode or quality other than those above is one that must give no position. */
const checkFix: Check = (decoded, expected, row) => {
  if (row.expect.valid === false) expect(position(decoded)).toBeUndefined();
  else checkQuality(decoded, expected, row);
};
const checkStatus: Check = (decoded, expected) => {
  expect(position(decoded) !== undefined).toBe(expected === 'A');
  expect(none(decoded) !== undefined).toBe(expected !== 'A');
};
/** Satellites and HDOP are told with the position, and so not without one. */
const withFix = (check: Check): Check => {
  return (decoded, expected, row) => {
    if (position(decoded)) check(decoded, expected, row);
    else expect(none(decoded)).toBeDefined();
  };
};
/** A position sent without a fix behind it: it is not told. */
const stale: Check = (decoded) => {
  expect(position(decoded)).toBeUndefined();
  expect(none(decoded)).toBeDefined();
};
const variationOfFix: Check = (decoded, expected, row) => {
  if (row.expect.valid === false) expect(variation(decoded)).toBeUndefined();
  else near(9, variation)(decoded, expected, row);
};
/** Published values that hawse has no use for: nothing is told that could be compared. */
const notTold = 'not told';
type Checks = Record<string, Check | typeof notTold>;

const FIX: Checks = {
  time: checkTime,
  lat: near(8, (d) => position(d)?.lat),
  lon: near(8, (d) => position(d)?.lon),
};
const SATELLITES: Checks = {
  satellites: withFix(near(9, (d) => position(d)?.satellites)),
  hdop: withFix(near(9, (d) => position(d)?.hdop)),
  altitude_m: notTold,
  geoid_sep_m: notTold,
  dgps_age: notTold,
  dgps_station: notTold,
  lat_as_sent: stale,
  lon_as_sent: stale,
};
const DEPTH: Checks = {
  feet: (decoded, expected, row) => {
    if (row.expect.metres !== null) expect(depth(decoded)?.depth).toBe(row.expect.metres);
    else near(9, (d) => per(depth(d)?.depth, FOOT))(decoded, expected, row);
  },
  metres: near(9, (d) => depth(d)?.depth),
  fathoms: (decoded, expected, row) => {
    if (row.expect.metres !== null) expect(depth(decoded)?.depth).toBe(row.expect.metres);
    else near(9, (d) => per(depth(d)?.depth, FATHOM))(decoded, expected, row);
  },
};
const SIDE_WIND: Checks = {
  angle_signed: near(9, (d) => wind(d)?.angle),
  speed_kn: near(9, (d) => knotsOf(wind(d)?.speed)),
  speed_ms: notTold,
  speed_kmh: notTold,
};

/** For each kind of sentence how each published value is compared; a value that is missing here fails the test. */
const CHECKS: Record<string, Checks> = {
  GGA: { ...FIX, ...SATELLITES, quality: checkFix, valid: stale },
  GNS: {
    ...FIX,
    ...SATELLITES,
    mode: checkFix,
    nav_status: notTold,
    valid: (decoded, expected) => expect(position(decoded) !== undefined).toBe(expected),
  },
  RMC: {
    ...FIX,
    datetime: checkDateTime,
    status: checkStatus,
    valid: stale,
    lat_as_sent: stale,
    lon_as_sent: stale,
    sog_kn: near(9, (d) => knotsOf(motion(d)?.sog)),
    cog_true: near(9, (d) => motion(d)?.cog),
    variation_deg: variationOfFix,
    mode: checkFix,
    nav_status: notTold,
  },
  GLL: { ...FIX, status: checkStatus, mode: checkFix },
  VTG: {
    cog_true: near(9, (d) => motion(d)?.cog),
    cog_mag: near(9, (d) => motion(d)?.cogMagnetic),
    sog_kn: near(9, (d) => knotsOf(motion(d)?.sog)),
    sog_kmh: notTold,
    mode: notTold,
  },
  GSA: {
    selection: notTold,
    fix: same(({ observations }) => only(observations, 'dilution')?.dimensions),
    satellites: notTold,
    pdop: notTold,
    hdop: near(9, ({ observations }) => only(observations, 'dilution')?.hdop),
    vdop: notTold,
    system: notTold,
  },
  GSV: {
    total: notTold,
    number: notTold,
    in_view: same(({ observations }) => only(observations, 'satellites-in-view')?.count),
    satellites: notTold,
  },
  GST: {
    time: notTold,
    rms: notTold,
    semi_major_m: notTold,
    semi_minor_m: notTold,
    orientation_deg: notTold,
    lat_sigma_m: near(9, ({ observations }) => only(observations, 'accuracy')?.latSigma),
    lon_sigma_m: near(9, ({ observations }) => only(observations, 'accuracy')?.lonSigma),
    alt_sigma_m: notTold,
  },
  ZDA: { datetime: checkDateTime, zone_hours: notTold, zone_minutes: notTold },
  HDT: { heading_true: near(9, heading) },
  HDG: {
    sensor: near(9, (d) => direction((magnetic(d)?.heading ?? Number.NaN) - deviationIn(d))),
    deviation_deg: (decoded, expected) => expect(magnetic(decoded)?.deviationApplied).toBe(expected !== null),
    variation_deg: near(9, variation),
    heading_mag: near(9, (d) => magnetic(d)?.heading),
    heading_true: near(9, (d) => {
      const east = variation(d);
      return east === undefined ? undefined : direction(magnetic(d)!.heading + east);
    }),
  },
  HDM: { heading_mag: near(9, (d) => magnetic(d)?.heading) },
  THS: {
    heading_true: (decoded, expected, row) =>
      near(9, heading)(decoded, row.expect.valid === false ? null : expected, row),
    mode: notTold,
    valid: (decoded, expected) => expect(heading(decoded) !== undefined).toBe(expected),
  },
  ROT: {
    rate_deg_min: near(9, ({ observations }) => per(only(observations, 'rate-of-turn')?.rate, 1 / 60)),
    status: (decoded, expected) =>
      expect(only(decoded.observations, 'rate-of-turn') !== undefined).toBe(expected === 'A'),
  },
  VHW: {
    heading_true: near(9, heading),
    heading_mag: near(9, (d) => magnetic(d)?.heading),
    stw_kn: near(9, (d) => knotsOf(waterSpeed(d)?.ahead)),
    stw_kmh: notTold,
  },
  VBW: {
    stw_long_kn: near(9, (d) => knotsOf(waterSpeed(d)?.ahead)),
    stw_trans_kn: near(9, (d) => knotsOf(waterSpeed(d)?.athwart)),
    water_status: (decoded, expected) => expect(waterSpeed(decoded) !== undefined).toBe(expected === 'A'),
    sog_long_kn: near(9, (d) => knotsOf(groundSpeed(d)?.ahead)),
    sog_trans_kn: near(9, (d) => knotsOf(groundSpeed(d)?.athwart)),
    ground_status: (decoded, expected) => expect(groundSpeed(decoded) !== undefined).toBe(expected === 'A'),
    stern_stw_kn: notTold,
    stern_water_status: notTold,
    stern_sog_kn: notTold,
    stern_ground_status: notTold,
  },
  VDR: {
    set_true: near(9, (d) => stream(d)?.set),
    set_mag: near(9, (d) => stream(d)?.setMagnetic),
    drift_kn: near(9, (d) => knotsOf(stream(d)?.drift)),
  },
  MWV: {
    angle: near(9, (d) => {
      const told = wind(d);
      return told === undefined ? undefined : direction(told.angle);
    }),
    reference: (decoded, expected, row) => {
      const kind = expected === 'R' ? 'wind-apparent' : 'wind-theoretical';
      expect(wind(decoded)?.kind).toBe(row.expect.status === 'A' ? kind : undefined);
    },
    speed: near(9, (d) => knotsOf(wind(d)?.speed)),
    unit: (_, expected) => expect(expected).toBe('N'),
    speed_ms: near(6, (d) => wind(d)?.speed),
    status: (decoded, expected) => expect(wind(decoded) !== undefined).toBe(expected === 'A'),
    valid: (decoded, expected) => expect(wind(decoded) !== undefined).toBe(expected),
  },
  MWD: {
    dir_true: near(9, (d) => ground(d)?.from),
    dir_mag: near(9, (d) => ground(d)?.fromMagnetic),
    speed_kn: near(9, (d) => knotsOf(ground(d)?.speed)),
    speed_ms: notTold,
  },
  VWR: SIDE_WIND,
  VWT: SIDE_WIND,
  DPT: {
    depth_transducer_m: near(9, (d) => depth(d)?.depth),
    offset_m: near(9, (d) => depth(d)?.offset),
    range_m: notTold,
    depth_surface_m: near(9, (d) => depth(d)!.depth + depth(d)!.offset!),
    depth_keel_m: near(9, (d) => depth(d)!.depth + depth(d)!.offset!),
  },
  DBT: DEPTH,
  DBK: DEPTH,
  DBS: DEPTH,
  MTW: { temp_c: near(9, ({ observations }) => only(observations, 'water-temperature')?.celsius) },
  XDR: {
    quads: same(({ observations }) =>
      observations
        .filter((o) => o.kind === 'transducer')
        .map((o) => [o.type, o.value ?? null, o.unit, o.name]),
    ),
  },
  VDM: {},
  VDO: {},
  ALR: {
    time: checkTime,
    id: same((d) => alert(d)?.alertId),
    condition: same((d) => alert(d)?.condition),
    acknowledged: same((d) => alert(d)?.acknowledged),
    text: same((d) => alert(d)?.text),
  },
  ACK: { id: same((d) => alert(d)?.alertId) },
  ALF: {
    total: same((d) => alert(d)?.total),
    number: same((d) => alert(d)?.number),
    seq: same((d) => alert(d)?.sequence),
    time: checkTime,
    category: same((d) => alert(d)?.category),
    priority: same((d) => alert(d)?.priority),
    state: same((d) => alert(d)?.state),
    manufacturer: same((d) => alert(d)?.manufacturer),
    id: same((d) => alert(d)?.alertId),
    instance: same((d) => alert(d)?.instance),
    revision: same((d) => alert(d)?.revision),
    escalation: same((d) => alert(d)?.escalation),
    text: same((d) => alert(d)?.text),
  },
  ALC: {
    total: same((d) => alert(d)?.total),
    number: same((d) => alert(d)?.number),
    seq: same((d) => alert(d)?.sequence),
    entries: same((d) => {
      const list = alert(d);
      return list?.id === 'ALC'
        ? list.entries.map((e) => [e.manufacturer, e.alertId, e.instance, e.revision])
        : list;
    }),
  },
  ACN: {
    time: checkTime,
    manufacturer: same((d) => alert(d)?.manufacturer),
    id: same((d) => alert(d)?.alertId),
    instance: same((d) => alert(d)?.instance),
    command: same((d) => alert(d)?.command),
    flag: (_, expected) => expect(expected).toBe('C'),
  },
  HBT: {
    interval_s: same((d) => alert(d)?.interval),
    status: (decoded, expected) => expect(alert(decoded)?.ok).toBe(expected === 'A'),
    seq: same((d) => alert(d)?.sequence),
  },
};
const AIS: Checks = {
  fragments: same((d) => part(d)?.total),
  number: same((d) => part(d)?.number),
  seq: (decoded, expected) =>
    expect(part(decoded)?.sequence).toBe(expected === null ? undefined : Number(expected)),
  channel: same((d) => part(d)?.channel),
  payload: same((d) => part(d)?.payload),
  fill_bits: same((d) => part(d)?.fillBits),
};
CHECKS.VDM = AIS;
CHECKS.VDO = AIS;
CHECKS.TAG = {
  tag: (decoded, expected) => {
    const tag = expected as { s: string; c: number };
    expect(decoded.tag).toEqual({ at: tag.c, source: tag.s });
  },
  tag_checksum: notTold,
  inner: (decoded, expected) => expect(`!${decoded.talker}${decoded.id}`).toBe(expected),
};

/** Deviation of the only HDG row that has one. */
function deviationIn(decoded: Sentence): number {
  return magnetic(decoded)?.deviationApplied === true ? 0.1 : 0;
}

const path = sharedMaterial('reference/sentences.json');
const rows: Row[] = path === undefined ? [] : JSON.parse(readFileSync(path, 'utf8'));

describe.skipIf(path === undefined)('published sentences', () => {
  test('there are 96, three of them published with a wrong checksum', () => {
    expect(rows.length).toBe(96);
    expect(rows.filter((row) => !row.checksum_ok).map((row) => row.id)).toEqual(['THS-1', 'ACN-X', 'HBT-X']);
  });

  test.each(rows.map((row) => [row.id, row.source, row] as const))('%s — %s', (_, __, row) => {
    let { sentence } = row;
    if (!row.checksum_ok) {
      expect(refused(sentence).reason).toBe('checksum');
      sentence = withChecksum(sentence.slice(1, -3));
      expect(sentence.slice(-2)).toBe(row.checksum_computed);
      if (Object.keys(row.expect).length === 0) {
        expect(refused(sentence).reason).toBe('malformed');
        return;
      }
    }
    const decoded = accepted(sentence);
    const checks = CHECKS[row.id.split('-')[0]!]!;
    for (const [name, expected] of Object.entries(row.expect)) {
      const check = checks[name];
      if (check === undefined) throw new Error(`${row.id}: ${name} is not compared`);
      if (check !== notTold) check(decoded, expected, row);
    }
  });

  test('signed angles: 268 clockwise from the bow is 92 to port (MWV-3 and VWR-2 are the same instant)', () => {
    const mwv = wind(accepted(rows.find((row) => row.id === 'MWV-3')!.sentence));
    const vwr = wind(accepted(rows.find((row) => row.id === 'VWR-2')!.sentence));
    expect(mwv).toEqual(vwr);
    expect(mwv?.angle).toBe(signed(268));
  });
});
