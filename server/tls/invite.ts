import { renderUnicodeCompact } from 'uqr';

/** What the terminal says of https: where phones are led to it, and what they compare. With a QR code on a terminal only. */
export function trustInvitation(
  { address, secure, fingerprint }: { address: string; secure?: string; fingerprint: string },
  isTerminal: boolean,
): string {
  if (secure === undefined) return '';
  const code = isTerminal ? `${renderUnicodeCompact(address).replace(/^/gm, '  ')}\n` : '';
  return `Over https a phone can keep its screen awake. Once for each phone, open ${address}\n${code}  and compare this fingerprint: ${fingerprint}\n  afterwards: ${secure}\n`;
}
