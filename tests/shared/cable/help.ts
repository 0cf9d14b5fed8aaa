import { submergedWeight } from '../../../shared/cable/nature.ts';
import type { CableShape, Carried, Hang } from '../../../shared/cable/shape.ts';

/** The reference's yacht cases: mass (kg/m), height (m), length (m) → a cable. */
export const yacht = (mass: number, height: number, length: number): Hang => ({
  length,
  height,
  weight: submergedWeight(mass),
});

/** A cable that carries something; anything else fails the test. */
export function carried(shape: CableShape): { state: string } & Carried {
  if (shape.state === 'infeasible' || shape.state === 'taut') {
    throw new Error(`expected a hanging cable, got ${JSON.stringify(shape)}`);
  }
  return shape;
}

/** Every number in a value is finite. */
export function allFinite(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value);
  if (value && typeof value === 'object') return Object.values(value).every(allFinite);
  return true;
}
