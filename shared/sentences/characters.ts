/** Character codes that have a meaning in a sentence (IEC 61162-1, reserved characters). */
export const BACKSLASH = 0x5c;
export const BANG = 0x21;
export const COLON = 0x3a;
export const COMMA = 0x2c;
export const DOLLAR = 0x24;
export const MINUS = 0x2d;
const NINE = 0x39;
export const PLUS = 0x2b;
export const POINT = 0x2e;
export const SPACE = 0x20;
export const STAR = 0x2a;
export const ZERO = 0x30;

export const isDigit = (code: number): boolean => code >= ZERO && code <= NINE;

/** Value of a hexadecimal digit in either case, −1 for any other character. */
export function hexDigit(code: number): number {
  if (isDigit(code)) return code - ZERO;
  const lower = code | 0x20;
  return lower >= 0x61 && lower <= 0x66 ? lower - 0x57 : -1;
}
