import { z } from 'zod';

/** An object that refuses unknown members and names the ones that are known: a mistyped limit must not vanish. */
export const strict = <S extends z.ZodRawShape>(shape: S) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `expected ${Object.keys(shape).join(', ') || 'no member'}`
        : undefined,
  });
