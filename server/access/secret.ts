import { createHash, randomBytes, randomInt } from 'node:crypto';

/** 192 random bits, in letters that go into a cookie or a header as they are. */
export const newKey = (): string => randomBytes(24).toString('base64url');

/**
 * What is kept of a key. One round of SHA-256 and no salt: a slow hash makes guessing dear for words that people choose,
 * but nobody guesses 192 random bits however quick the hash, and a slow one would let a stranger's wrong keys load the
 * boat's computer. Found by its hash in a table: how long that takes tells of the hash only, and a hash opens nothing.
 */
export const hashOf = (key: string): string => createHash('sha256').update(key).digest('base64url');

/** Letters and digits that cannot be mistaken for each other when read aloud or by torchlight: 30, so 39 bits in eight. */
const LETTERS = 'ABCDEFGHJKMNPQRSTVWXYZ23456789';
const CODE_LENGTH = 8;

export const newCode = (): string =>
  Array.from({ length: CODE_LENGTH }, () => LETTERS[randomInt(LETTERS.length)]).join('');

/** A code as a person types it: small letters, blanks and hyphens do not matter. */
export const readCode = (typed: string): string => typed.toUpperCase().replace(/[\s-]/g, '');

/** In two halves, to be read and typed. */
export const codeInWords = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`;
