import { hangUnder } from '../cable/catenary.ts';
import { submergedWeight } from '../cable/nature.ts';
import { rodeUnder } from '../cable/rode.ts';
import type { CableShape } from '../cable/shape.ts';
import type { Rode } from '../cable/walk.ts';
import type { Task } from './request.ts';

/** Rope behind the chain: 14 mm nylon, kg/m (common value). */
const ROPE_MASS = 0.12;

/** The rode of a length: chain as far as it goes, then rope. */
export function rodeOf({ request, chain, slope }: Task, length: number, height: number): Rode {
  const weight = submergedWeight(chain.massPerMetre);
  const chainOut = Math.min(length, request.chainLength ?? length);
  const parts = [{ length: chainOut, weight }];
  if (length > chainOut) {
    parts.push({ length: length - chainOut, weight: submergedWeight(ROPE_MASS, 'nylon') });
  }
  return { parts, height, slope };
}

/** How it hangs under a horizontal pull: in closed form where that holds. */
export function hangOf(rode: Rode, horizontal: number): CableShape {
  const [only, second] = rode.parts;
  if (!only || second || rode.slope) return rodeUnder(rode, horizontal);
  return hangUnder({ ...only, height: rode.height }, horizontal);
}
