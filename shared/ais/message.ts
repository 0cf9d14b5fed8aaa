import type { LatLon } from '../quantities/estimate.ts';
import { fromKnots } from '../quantities/units.ts';
import { type Bits, signed, text, unsigned } from './bits.ts';

/** Distances from the antenna of a ship's position receiver to her ends and sides, metres. */
export interface Extent {
  toBow: number;
  toStern: number;
  toPort: number;
  toStarboard: number;
}

/** What a ship says of herself in one message. SI units, directions true; absent: she does not say. */
export interface AisMessage {
  /** Message type: 1, 2, 3, 5, 18, 19, 24 or 27. */
  type: number;
  mmsi: number;
  position?: LatLon;
  /** Steps of the position as sent: 0.0001 minute, or a tenth of a minute in the long-range message; metres north-south. */
  resolution?: number;
  /** Over the ground. `fast`: so fast that the message cannot say it. */
  sog?: number;
  cog?: number;
  heading?: number;
  /** Navigational status as numbered by ITU-R M.1371: 1 at anchor, 5 moored; only class A tells it. */
  status?: number;
  name?: string;
  callSign?: string;
  shipType?: number;
  extent?: Extent;
  /** Class A is carried by ships, B by small craft; the static messages of class B come in parts. */
  unit: 'A' | 'B';
}

/** `other`: a whole message of a type that tells nothing of neighbours (base stations, buoys, texts). */
export type Read =
  | { ok: true; message: AisMessage }
  | { ok: false; reason: 'malformed' | 'other'; why: string };

/** Least bits of each type that is read (ITU-R M.1371-5, annex 8; gpsd AIVDM.adoc). Type 5 is often sent two bits short. */
const LEAST: Record<number, number> = { 1: 168, 2: 168, 3: 168, 5: 420, 18: 168, 19: 312, 27: 96 };
const PART_A_BITS = 160;
const PART_B_BITS = 162;
const HIGHEST_TYPE = 27;
const METRES_PER_MINUTE = 1852;
/** An auxiliary craft tells her mother ship's number where others tell their size: numbers 98x xxx xxx. */
const isAuxiliary = (mmsi: number): boolean => Math.floor(mmsi / 1e7) === 98;

/** Reads one whole message. A position outside the globe, or exactly 0/0, is refused or left out: never made up. */
export function readMessage(bits: Bits): Read {
  if (bits.length < 38) return malformed(`has ${bits.length} bits, too few for any message`);
  const type = unsigned(bits, 0, 6);
  if (type < 1 || type > HIGHEST_TYPE) return malformed(`is of type ${type}, which does not exist`);
  const mmsi = unsigned(bits, 8, 30);
  if (mmsi === 0 || mmsi > 999_999_999) return malformed(`has the number ${mmsi}, not a ship's`);
  if (type === 24) return readPart(bits, mmsi);
  const least = LEAST[type];
  if (least === undefined) return { ok: false, reason: 'other', why: `message of type ${type}` };
  if (bits.length < least) return malformed(`of type ${type} has ${bits.length} bits, not ${least}`);
  switch (type) {
    case 5:
      return {
        ok: true,
        message: clean({
          type,
          mmsi,
          unit: 'A',
          callSign: text(bits, 70, 42),
          name: text(bits, 112, 120),
          shipType: unsigned(bits, 232, 8) || undefined,
          extent: extentAt(bits, 240),
        }),
      };
    case 18:
    case 19:
      return placed(bits, { type, mmsi, unit: 'B' }, 46, {
        heading: headingAt(bits, 124),
        ...(type === 19
          ? {
              name: text(bits, 143, 120),
              shipType: unsigned(bits, 263, 8) || undefined,
              extent: extentAt(bits, 271),
            }
          : {}),
      });
    case 27:
      return longRange(bits, mmsi);
    default:
      return placed(bits, { type, mmsi, unit: 'A' }, 50, {
        heading: headingAt(bits, 128),
        status: statusOf(unsigned(bits, 38, 4)),
      });
  }
}

/** Types 1, 2, 3, 18, 19: speed, accuracy, longitude, latitude and course follow one another from bit `at`. */
function placed(
  bits: Bits,
  who: Pick<AisMessage, 'type' | 'mmsi' | 'unit'>,
  at: number,
  more: Loose<Pick<AisMessage, 'heading' | 'status' | 'name' | 'shipType' | 'extent'>>,
): Read {
  const position = positionOf(signed(bits, at + 11, 28) / 600_000, signed(bits, at + 39, 27) / 600_000);
  if (position === 'impossible') return malformed('has a position that is not on the globe');
  const speed = unsigned(bits, at, 10);
  const course = unsigned(bits, at + 66, 12);
  return {
    ok: true,
    message: clean({
      ...who,
      position,
      resolution: position && METRES_PER_MINUTE / 10_000,
      sog: speed < 1023 ? fromKnots(speed / 10) : undefined,
      cog: course < 3600 ? course / 10 : undefined,
      ...more,
    }),
  };
}

function longRange(bits: Bits, mmsi: number): Read {
  const position = positionOf(signed(bits, 44, 18) / 600, signed(bits, 62, 17) / 600);
  if (position === 'impossible') return malformed('has a position that is not on the globe');
  const speed = unsigned(bits, 79, 6);
  const course = unsigned(bits, 85, 9);
  return {
    ok: true,
    message: clean({
      type: 27,
      mmsi,
      unit: 'A',
      status: statusOf(unsigned(bits, 40, 4)),
      position,
      resolution: position && METRES_PER_MINUTE / 10,
      sog: speed < 63 ? fromKnots(speed) : undefined,
      cog: course < 360 ? course : undefined,
    }),
  };
}

/** Type 24: part A has the name; part B type, call sign and size. */
function readPart(bits: Bits, mmsi: number): Read {
  const part = unsigned(bits, 38, 2);
  if (part > 1) return malformed(`of type 24 has the part number ${part}, not 0 or 1`);
  const least = part === 0 ? PART_A_BITS : PART_B_BITS;
  if (bits.length < least) return malformed(`of type 24 has ${bits.length} bits, not ${least}`);
  const who = { type: 24, mmsi, unit: 'B' } as const;
  if (part === 0) return { ok: true, message: clean({ ...who, name: text(bits, 40, 120) }) };
  return {
    ok: true,
    message: clean({
      ...who,
      shipType: unsigned(bits, 40, 8) || undefined,
      callSign: text(bits, 90, 42),
      extent: isAuxiliary(mmsi) ? undefined : extentAt(bits, 132),
    }),
  };
}

/** 181/91 mean "not available"; 0/0 is what a receiver without a position sends, and nobody anchors there. */
function positionOf(lon: number, lat: number): LatLon | undefined | 'impossible' {
  if (lon === 181 || lat === 91 || (lon === 0 && lat === 0)) return undefined;
  return Math.abs(lon) > 180 || Math.abs(lat) > 90 ? 'impossible' : { lat, lon };
}

function headingAt(bits: Bits, at: number): number | undefined {
  const heading = unsigned(bits, at, 9);
  return heading < 360 ? heading : undefined;
}

const statusOf = (status: number): number | undefined => (status < 15 ? status : undefined);

/** Four distances; all zero, or no length, is a set that nobody has filled in. Only a length without the antenna's place has zero ahead. */
function extentAt(bits: Bits, at: number): Extent | undefined {
  const extent = {
    toBow: unsigned(bits, at, 9),
    toStern: unsigned(bits, at + 9, 9),
    toPort: unsigned(bits, at + 18, 6),
    toStarboard: unsigned(bits, at + 24, 6),
  };
  return extent.toBow + extent.toStern > 0 ? extent : undefined;
}

const malformed = (why: string): Read => ({ ok: false, reason: 'malformed', why: `AIS message ${why}` });

type Loose<T> = { [K in keyof T]?: T[K] | undefined };

/** Unknown is absent. */
function clean(message: Loose<AisMessage> & Pick<AisMessage, 'type' | 'mmsi' | 'unit'>): AisMessage {
  return Object.fromEntries(
    Object.entries(message).filter(([, value]) => value !== undefined),
  ) as unknown as AisMessage;
}
