import { threeFigures } from '../quantities/angle.ts';
import { toKnots } from '../quantities/units.ts';

/** Words of the watch: what its alerts and its circle say to people. One place, so that they agree with each other. */

/** Metres as people say them: whole from 10 m on. */
export const metres = (value: number): string => `${value.toFixed(value < 9.95 ? 1 : 0)} m`;
/** Metres to the decimetre, where a limit is missed by little. */
export const decimetres = (value: number): string => `${value.toFixed(1)} m`;
export const knots = (metresPerSecond: number): string => `${toKnots(metresPerSecond).toFixed(1)} kn`;
/** A direction in three figures: 005°. */
export const bearing = threeFigures;

/** A time span in one unit: 12 s, 5 min, 3 h. */
function span(seconds: number): string {
  if (seconds < 120) return `${Math.round(seconds)} s`;
  return seconds < 7200 ? `${Math.floor(seconds / 60)} min` : `${Math.floor(seconds / 3600)} h`;
}

/** Where something is off the bow: ahead, 20° on the starboard bow, abeam to port, 150° to port. */
export function offTheBow(lead: number): string {
  const angle = Math.round(Math.abs(lead));
  const side = lead < 0 ? 'port' : 'starboard';
  if (angle <= 5) return 'right ahead';
  if (angle >= 175) return 'right astern';
  if (angle >= 85 && angle <= 95) return `abeam to ${side}`;
  return angle < 85 ? `${angle}° on the ${side} bow` : `${angle}° to ${side}, abaft the beam`;
}

export const circleTold = (radius: number): string => `${decimetres(radius)}, as told.`;

export interface CircleParts {
  radius: number;
  cable: number;
  h: number | undefined;
  reach: number;
  mark: number;
  position: number;
  margin: number;
}

export function circleComputed({ radius, cable, h, reach, mark, position, margin }: CircleParts): string {
  const of =
    h === undefined
      ? `${decimetres(cable)} of cable, the depth being unknown`
      : h >= cable
        ? `${decimetres(cable)} of cable, although it is ${decimetres(h)} from roller to bottom: is the length right?`
        : `${decimetres(reach)} reach of ${decimetres(cable)} of cable with ${decimetres(h)} from roller to bottom`;
  return (
    `${decimetres(radius)}: ${of}; + ${decimetres(mark)} for the mark and ${decimetres(position)} for the position ` +
    `(two sigma each); + ${decimetres(margin)} margin.`
  );
}

/** Value and limit to one decimal, or to two when they would read the same: "15.6 over the limit of 15.6" explains nothing. */
function beside(value: number, limit: number, unit: string): [string, string] {
  const tenths = [value.toFixed(1), limit.toFixed(1)] as const;
  const [is, allowed] =
    value !== limit && tenths[0] === tenths[1] ? [value.toFixed(2), limit.toFixed(2)] : tenths;
  return [`${is} ${unit}`, `${allowed} ${unit}`];
}

/** `allowed` for the roller, metres; `offset`: what is allowed on top while only the antenna's place is known. */
export function outsideCircle(distance: number, allowed: number, offset: number | undefined): string {
  const is = distance > allowed + (offset ?? 0) ? 'Outside the circle' : 'Was outside the circle, is back';
  const [value, limit] = beside(distance, allowed, 'm');
  return offset === undefined
    ? `${is}: ${value} from roller to mark, ${limit} allowed.`
    : `${is}: ${value} from antenna to mark, ${limit} allowed for the roller and ` +
        `${decimetres(offset)} for where it is, unknown without a heading.`;
}

/** By fixes that are not to be trusted. */
export const outsideCircleDoubtful = (said: string): string =>
  `${said} The position is doubtful, and its error may explain that: look for yourself.`;

export const outsideCircleUnseen = (radius: number): string =>
  `Outside the circle of ${decimetres(radius)} when last seen; there is no position now.`;

export const outsideSector = (end: 'bow' | 'stern', depth: number, name: string | undefined): string =>
  `The ${end} is ${decimetres(depth)} inside ${name === undefined ? 'a sector that she must not enter' : `the sector "${name}"`}.`;

export const outsideSectorUnseen = (seen: boolean): string =>
  seen
    ? 'She was in a sector that she must not enter and is leaving it.'
    : 'In a sector that she must not enter when last seen; there is no position now.';

export const positionLost = (age: number): string =>
  `No position for ${span(age)}: hawse cannot see whether she holds.`;

export const positionNever = (since: number): string =>
  `No position since the watch began ${span(since)} ago: hawse cannot see whether she holds.`;

export const positionReturns = 'Positions come again; hawse waits for three.';

export const positionDoubtful = (reason: string): string =>
  `The position is doubtful: ${reason.replace(/\.$/, '')}.`;

/** How a depth was measured, when not to the surface. */
const measured = (fromSurface: boolean): string => (fromSurface ? '' : ' below the transducer');

export function shoal(depth: number, least: number, fromSurface: boolean): string {
  const [value, limit] = beside(depth, least, 'm');
  return depth < least
    ? `Shoal: ${value} of water${measured(fromSurface)}, less than the limit of ${limit}.`
    : `Was shoal: ${value} of water${measured(fromSurface)} now, limit ${limit}.`;
}

export function deep(depth: number, most: number, fromSurface: boolean): string {
  const [value, limit] = beside(depth, most, 'm');
  return depth > most
    ? `Deep: ${value} of water${measured(fromSurface)}, more than the limit of ${limit}.`
    : `Was deep: ${value} of water${measured(fromSurface)} now, limit ${limit}.`;
}

export const depthUnseen = (less: boolean, limit: number): string =>
  `${less ? 'Less' : 'More'} water than the limit of ${decimetres(limit)} when last measured; there is no depth now.`;

export function windSpeed(speed: number, most: number, ground: boolean): string {
  const [value, limit] = beside(toKnots(speed), toKnots(most), 'kn');
  return `Wind ${value}${ground ? '' : ' apparent'}, ${speed > most ? 'over' : 'was over'} the limit of ${limit}.`;
}

export const windSpeedUnseen = (most: number): string =>
  `Wind over the limit of ${knots(most)} when last measured; there is no wind now.`;

export const windShift = (from: number, to: number, shift: number, most: number): string =>
  `Wind ${shift > most ? 'has' : 'had'} shifted${shift > most ? '' : ' more'}: ${Math.round(shift)}°${shift > most ? '' : ' now'}, ` +
  `from ${bearing(from)} to ${bearing(to)}; the limit is ${Math.round(most)}°.`;

export const windShiftUnseen = (most: number): string =>
  `Wind had shifted more than the limit of ${Math.round(most)}° when last measured; its direction is unknown now.`;

type Instrument = 'heading' | 'wind' | 'depth';

const CONSEQUENCE: Record<Instrument, string> = {
  heading: 'where the roller is gets uncertain',
  wind: 'limits of the wind are not watched',
  depth: 'limits of the depth are not watched',
};

export const lost = (what: Instrument, age: number, consequence: boolean): string =>
  `No ${what} for ${span(age)}${consequence ? `: ${CONSEQUENCE[what]}` : ''}.`;

const NAMES: Record<Instrument, string> = { heading: 'Heading', wind: 'Wind', depth: 'Depth' };
export const returns = (what: Instrument): string =>
  `${NAMES[what]} was lost and comes again; hawse waits for it to stay.`;

export const neverHeard = (what: Instrument): string =>
  `No ${what} since the watch began: ${CONSEQUENCE[what]}.`;

export const noGroundWind =
  'The direction of the wind over ground is unknown (it takes a heading and a speed over ground): its shift is not watched.';

export const cableUnknown = (seconds: number): string =>
  `Drag is not judged yet: hawse does not know how much cable is out and learns from how she lies${seconds > 0 ? `, ${span(seconds)} more` : ''}. Tell it the metres veered.`;

export const doubtfulUnseen = 'Drag cannot be judged while the position is doubtful.';

export const unfitUnseen =
  'Drag is not judged: she lies farther from the mark than her cable reaches. Is the mark right?';

/** Said when the length of the cable is hawse's own supposition. */
export const cableSupposed = (metres: number): string =>
  `Drag is judged by ${Math.round(metres)} m of cable, supposed from how she has lain: tell hawse the metres veered.`;

export interface Dragged {
  /** How far the anchor has moved the way the cable pulls, metres, and towards where. */
  value: number;
  sigma: number;
  towards: number;
  minutes: number;
  /** Metres from where the anchor held, as learnt, and how far the cable reaches. */
  distance: number;
  reach: number;
  wind: number | undefined;
}

/** The reasons that a person can check. */
export const dragged = ({ value, sigma, towards, minutes, distance, reach, wind }: Dragged): string =>
  `The anchor has probably moved ${value.toFixed(0)} ± ${sigma.toFixed(0)} m to ${bearing(towards)} in ${span(60 * minutes)}` +
  `${wind === undefined ? '; wind unknown' : `; wind ${knots(wind)}`}; she lies ${decimetres(distance)} from where ` +
  `it held, of ${decimetres(reach)} that the cable reaches in this wind.`;

/** The fast path: she lies farther out than a held anchor lets her, and goes on. */
export const brokenLoose = (
  farther: number,
  seconds: number,
  speed: number | undefined,
  distance: number,
  wind?: number,
): string =>
  `She moves away from her anchor: ${decimetres(farther)} farther than a held anchor allows, for ${span(seconds)}` +
  `${speed === undefined ? '' : `, at ${knots(speed)}`}; ${wind === undefined ? '' : `wind ${knots(wind)}; `}${decimetres(distance)} to the mark.`;
