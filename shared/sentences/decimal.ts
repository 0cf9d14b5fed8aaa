import { isDigit, MINUS, PLUS, POINT, ZERO } from './characters.ts';

/** 10^0 … 10^15: all exact, and with a mantissa of at most 15 digits one division is then correctly rounded. */
const EXACT_DIGITS = 15;
export const POWER_OF_TEN: readonly number[] = Array.from({ length: EXACT_DIGITS + 1 }, (_, k) => 10 ** k);

/**
 * The decimal number that stands in `text` from `from` up to `to`: digits with at most one point and one leading sign, which is
 * all that the standard knows. Undefined for anything else (`12abc`, `1e3`, `Infinity`, `-1.-1`, nothing at all).
 */
export function decimal(text: string, from: number, to: number): number | undefined {
  const first = text.charCodeAt(from);
  const signed = first === MINUS || first === PLUS;
  let mantissa = 0;
  let digits = 0;
  let decimals = -1;
  for (let i = signed ? from + 1 : from; i < to; i++) {
    const c = text.charCodeAt(i);
    if (isDigit(c)) {
      mantissa = mantissa * 10 + (c - ZERO);
      digits++;
      if (decimals >= 0) decimals++;
    } else if (c === POINT && decimals < 0) decimals = 0;
    else return undefined;
  }
  if (digits === 0) return undefined;
  if (digits > EXACT_DIGITS) return Number(text.slice(from, to)) || 0;
  const size = decimals > 0 ? mantissa / POWER_OF_TEN[decimals]! : mantissa;
  return first === MINUS && size !== 0 ? -size : size;
}
