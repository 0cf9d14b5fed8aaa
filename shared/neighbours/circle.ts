import { chainOfSize } from '../cable/chain.ts';
import { reachNow } from '../cable/reach.ts';
import { NEIGHBOURS } from './limits.ts';

export interface HerCable {
  /** Roller from her anchor, m. */
  reach: number;
  sigma: number;
  veered: number;
  veeredFrom: 'told' | 'assumed';
}

/** Chain that goes with a length over all, mm (common practice, no source). */
const CHAIN_BY_LENGTH: readonly (readonly [number, number])[] = [
  [9, 8],
  [15, 10],
  [Number.POSITIVE_INFINITY, 13],
];

/**
 * How far a neighbour lies from her anchor in this wind (m/s; undefined: unknown) and depth (m): by the same catenary as ours, with a
 * cable as the crew told it or as such boats commonly veer. Undefined when the depth is unknown: then nothing can be reckoned.
 */
export function herCable(
  length: number,
  beam: number,
  depth: number | undefined,
  windSpeed: number | undefined,
  told: number | undefined,
): HerCable | undefined {
  if (depth === undefined || !(depth > 0)) return undefined;
  const rollerHeight = NEIGHBOURS.rollerOfLength * length;
  const height = depth + rollerHeight;
  const scope = length < NEIGHBOURS.shipLength ? NEIGHBOURS.scope.small : NEIGHBOURS.scope.ship;
  const veered = told ?? scope * height;
  const size = CHAIN_BY_LENGTH.find(([upTo]) => length < upTo)![1];
  const now = reachNow({
    veered,
    veeredSigma: told === undefined ? NEIGHBOURS.scopeSigma * veered : 0.1 * veered,
    depth,
    depthSigma: 1,
    rollerHeight,
    massPerMetre: chainOfSize(size)!.massPerMetre,
    boat: { hull: 'monohull', length, beam, draft: Math.max(1, 0.14 * length), windage: {} },
    ...(windSpeed === undefined ? {} : { windSpeed }),
  });
  return (
    now && {
      reach: now.reach.value,
      sigma: now.reach.sigma,
      veered,
      veeredFrom: told === undefined ? 'assumed' : 'told',
    }
  );
}
