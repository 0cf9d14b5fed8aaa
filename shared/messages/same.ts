import type { z } from 'zod';

/** Intersections and interfaces written out member by member, so that only the shape counts. */
type Plain<T> = T extends readonly (infer U)[]
  ? Plain<U>[]
  : T extends object
    ? { [K in keyof T]: Plain<T[K]> }
    : T;
type Alike<A, B> =
  (<T>() => T extends Plain<A> ? 1 : 2) extends <T>() => T extends Plain<B> ? 1 : 2 ? true : false;

/**
 * A schema whose shape is that of a room's own type `T`, to the optional member: `same<T>()(schema)` does nothing at run
 * time and does not compile when one has a member that the other lacks. So a shape is written where it belongs, in the room,
 * and the schema can't fall behind it.
 */
export const same =
  <T>() =>
  <S extends z.ZodType>(schema: S & (Alike<z.output<S>, T> extends true ? unknown : ShapesDiffer<S, T>)): S =>
    schema;

/** Appears in the compiler's message only: what the schema has, and what the type has. */
interface ShapesDiffer<S extends z.ZodType, T> {
  schema: Plain<z.output<S>>;
  type: Plain<T>;
}
