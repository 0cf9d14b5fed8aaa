import { submergedWeight } from './nature.ts';
import { type ProfilePoint, profile } from './profile.ts';
import { rodeAt, rodeUnder } from './rode.ts';
import type { CableShape } from './shape.ts';
import type { Rode } from './walk.ts';

/** How the cable lies between anchor and roller, seen from the side: what is told of it, metres and kg/m. */
export interface SideRequest {
  /** Cable out beyond the roller. */
  veered: number;
  /** From the surface now; and at low water, when the tide is known. */
  depth: number;
  depthLow?: number;
  rollerHeight: number;
  massPerMetre: number;
  /** Chain on board; what is veered beyond it is rope. Left out: all chain. */
  chainLength?: number;
  /** Roller to anchor as measured, horizontally. */
  distance: number;
}

export interface Side {
  now: ProfilePoint[];
  /** At low water under the same pull; absent: tide unknown. */
  low?: ProfilePoint[];
  onBottom: number;
  /** Metres by which the measured distance is more than any cable of this length reaches; 0: it fits. */
  beyond: number;
}

/** 14 mm nylon, kg/m (common value). */
const ROPE_MASS = 0.12;

/**
 * The cable as it must hang for the roller to be where it is measured (catenary on a flat bottom; sources: catenary.ts). When no
 * cable reaches that far it is drawn straight, and `beyond` tells how much is not explained. Undefined: no cable to draw, since a
 * measure is no positive number or the cable does not reach the bottom.
 */
export function side(request: SideRequest): Side | undefined {
  const { depth, depthLow, rollerHeight, distance } = request;
  const rode = rodeOf(request, depth + rollerHeight);
  const shape = rodeAt(rode, distance);
  const taut = Math.sqrt(Math.max(0, request.veered ** 2 - rode.height ** 2));
  if (shape.state === 'infeasible' && shape.reason !== 'too-far') return undefined;
  const low = depthLow === undefined ? undefined : rodeOf(request, depthLow + rollerHeight);
  return {
    now: drawn(rode, shape, taut),
    ...(low && {
      low: drawn(low, lowShape(low, shape, distance), Math.sqrt(request.veered ** 2 - low.height ** 2)),
    }),
    onBottom: shape.state === 'infeasible' ? 0 : shape.onBottom,
    beyond: Math.max(0, distance - taut),
  };
}

function rodeOf({ veered, chainLength = veered, massPerMetre }: SideRequest, height: number): Rode {
  const chain = { length: Math.min(veered, chainLength), weight: submergedWeight(massPerMetre) };
  const rope = { length: veered - chain.length, weight: submergedWeight(ROPE_MASS, 'nylon') };
  return { height, parts: rope.length > 0 ? [chain, rope] : [chain] };
}

/** Under the pull of now; a cable that bears nothing lets her lie where she lies. */
function lowShape(low: Rode, now: CableShape, distance: number): CableShape {
  if (now.state === 'grounded' || now.state === 'lifted') return rodeUnder(low, now.horizontal);
  return rodeAt(low, distance);
}

function drawn(rode: Rode, shape: CableShape, taut: number): ProfilePoint[] {
  if (shape.state !== 'infeasible') return profile(rode, shape);
  return [
    { out: taut, up: rode.height },
    { out: 0, up: 0 },
  ];
}
