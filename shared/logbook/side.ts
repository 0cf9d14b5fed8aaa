import { submergedWeight } from '../cable/nature.ts';
import { type ProfilePoint, profile } from '../cable/profile.ts';
import { rodeAt } from '../cable/rode.ts';

/** How she lay at a moment, as far as a side view needs it; metres, kg/m. */
export interface Lay {
  veered: number;
  /** From the surface. */
  depth: number;
  rollerHeight: number;
  massPerMetre: number;
  /** Chain on board; what is veered beyond it is rope. Left out: all chain. */
  chainLength?: number;
  /** Roller to mark. */
  distance: number;
}

export interface Side {
  /** From roller to anchor. */
  cable: ProfilePoint[];
  onBottom: number;
}

/** 14 mm nylon, kg/m (common value). */
const ROPE_MASS = 0.12;

/**
 * The line of the cable when the roller is so far from the anchor (elastic catenary without stretch, profile.ts), on a flat bottom. Undefined when
 * no cable of this length reaches from there to the mark, or none reaches the bottom: then the anchor is not where the mark is.
 */
export function sideOf({
  veered,
  depth,
  rollerHeight,
  massPerMetre,
  chainLength,
  distance,
}: Lay): Side | undefined {
  const chain = Math.min(veered, chainLength ?? veered);
  const parts = [{ length: chain, weight: submergedWeight(massPerMetre) }];
  if (veered > chain) parts.push({ length: veered - chain, weight: submergedWeight(ROPE_MASS, 'nylon') });
  const rode = { parts, height: depth + rollerHeight };
  const shape = rodeAt(rode, distance);
  if (shape.state === 'infeasible') return undefined;
  return { cable: profile(rode, shape), onBottom: shape.onBottom };
}
