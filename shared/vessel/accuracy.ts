import { hypot } from '../quantities/vector.ts';
import type { FixQuality, PositionObservation } from '../sentences/observation.ts';

/**
 * Error of a fix at HDOP 1, and the least that is believed of it, metres, one sigma of the horizontal distance (drms; σ = HDOP·UERE).
 * Autonomous: between the receivers measured over 24 h (drms 1.0–1.2 m on good sites) and the 8 m (95 %, so drms 4.6 m) that the GPS
 * SPS Performance Standard (2020, from memory) promises as a global average. Differential: 2.5 m was measured over 1.5 h.
 * RTK 0.02 m measured. The others are our choice.
 */
const UERE: Record<FixQuality, { metres: number; floor: number }> = {
  rtk: { metres: 0.05, floor: 0.05 },
  'rtk-float': { metres: 0.5, floor: 0.3 },
  precise: { metres: 2, floor: 0.7 },
  differential: { metres: 2.5, floor: 0.7 },
  autonomous: { metres: 3.5, floor: 0.7 },
  estimated: { metres: 30, floor: 30 },
};
/** When no sentence tells an HDOP: that of an ordinary sky with some of it hidden (our choice). */
const USUAL_HDOP = 1.5;

/**
 * One-sigma horizontal error of a fix per axis, metres: from the receiver's own standard deviations (GST) when it states them, else
 * from HDOP and quality (either is not told when it is 0); never less than a floor, and with the rounding of the digits sent (resolution/√12) in it.
 *
 * It is what the receiver believes. Neither HDOP nor mode bound the error: a receiver under a bad sky has wandered by 49 m (95 %)
 * with HDOP below 2 in 3D mode. What the fixes themselves give away is in the doubt, not in this number.
 */
export function sigmaOf(
  fix: PositionObservation,
  statedSigma: number | undefined,
  hdop: number | undefined,
): number {
  const { metres, floor } = UERE[fix.quality];
  const dilution = fix.hdop || hdop || USUAL_HDOP;
  const believed = statedSigma || (dilution * metres) / Math.SQRT2;
  return hypot(Math.max(believed, floor / Math.SQRT2), fix.resolution / Math.sqrt(12));
}
