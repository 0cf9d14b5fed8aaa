import type { Decoder } from './decoder.ts';
import { isMeasured, verdictOfMode } from './mode.ts';
import type { Observation } from './observation.ts';
import { bearing, bearingOf, knots, knotsOrKmh } from './readers.ts';

/** Tells speed (m/s) and course over the ground, as far as they are there. */
export function sayMotion(
  out: Observation[],
  sog: number | undefined,
  cog: number | undefined,
  cogMagnetic: number | undefined,
): void {
  if (sog === undefined && cog === undefined && cogMagnetic === undefined) return;
  const motion: Observation = { kind: 'motion' };
  if (sog !== undefined) motion.sog = sog;
  if (cog !== undefined) motion.cog = cog;
  if (cogMagnetic !== undefined) motion.cogMagnetic = cogMagnetic;
  out.push(motion);
}

/** Course and speed over the ground: `c,T,c,M,v,N,v,K[,mode]`, or before version 2.0 four bare numbers in the same order. */
const VTG: Decoder = {
  id: 'VTG',
  least: 4,
  most: 9,
  read(fields, out) {
    if (fields.count < 8) {
      if (!fields.blankFrom(4)) fields.fail(`has ${fields.count} fields, not 4, 8 or 9`);
      const sog = knots(fields, 2, 'speed over the ground');
      sayMotion(out, sog, bearing(fields, 0, 'course'), bearing(fields, 1, 'magnetic course'));
      return;
    }
    const cog = bearingOf(fields, 0, 'T', 'course');
    const cogMagnetic = bearingOf(fields, 2, 'M', 'magnetic course');
    const sog = knotsOrKmh(fields, 4, 'speed over the ground');
    if (isMeasured(verdictOfMode(fields, 8))) sayMotion(out, sog, cog, cogMagnetic);
  },
};

export const motionDecoders: Decoder[] = [VTG];
