import { renderUnicodeCompact } from 'uqr';

/** What the terminal shows so that a phone can be paired: the address as QR code, and the code for typing. */
export function invitation(pairing: { code: string; seconds: number }, addresses: readonly string[]): string {
  const [first] = addresses;
  const minutes = Math.round(pairing.seconds / 60);
  const lines = [
    `To let a phone command, pair it within ${minutes} minutes: code ${pairing.code}`,
    ...addresses.map((address) => `  ${address}`),
  ];
  if (first === undefined) lines.push('  (the page "Phones"; no other machine can reach this one)');
  else lines.push(indented(renderUnicodeCompact(first)));
  return `${lines.join('\n')}\n`;
}

const indented = (text: string): string =>
  text
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
