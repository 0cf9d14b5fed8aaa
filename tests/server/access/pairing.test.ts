import { expect, test } from 'vitest';
import { invitation } from '../../../server/access/invite.ts';
import { createPairing, PAIRING_MS } from '../../../server/access/pairing.ts';

test('a code is good for ten minutes and no longer', () => {
  let now = 0;
  const pairing = createPairing(() => now);
  const { code, seconds } = pairing.open('command');
  expect(seconds).toBe(600);
  now = PAIRING_MS - 1;
  expect(pairing.current()).toMatchObject({ code, seconds: 1 });
  now = PAIRING_MS;
  expect(pairing.current()).toBeUndefined();
  expect(pairing.redeem(code, undefined, () => {})).toEqual({ ok: false, why: 'closed' });
});

test('what cannot be done does not spend the code', () => {
  const pairing = createPairing(() => 0);
  const { code } = pairing.open('acknowledge');
  const fails = () => {
    throw new Error('disk full');
  };
  expect(() => pairing.redeem(code, undefined, fails)).toThrow('disk full');
  expect(pairing.redeem(code, 'command', () => {})).toEqual({ ok: false, why: 'role' });
  expect(pairing.redeem(code, undefined, () => {})).toEqual({ ok: true, role: 'acknowledge' });
  expect(pairing.redeem(code, undefined, () => {})).toEqual({ ok: false, why: 'closed' });
});

test('codes differ, and have only letters that cannot be mistaken', () => {
  const pairing = createPairing(() => 0);
  const codes = new Set(Array.from({ length: 500 }, () => pairing.open('look').code));
  expect(codes.size).toBe(500);
  for (const code of codes) expect(code).toMatch(/^[A-HJKMNP-TV-Z2-9]{4}-[A-HJKMNP-TV-Z2-9]{4}$/);
});

test('the terminal shows code, addresses and a QR code', () => {
  const shown = invitation({ code: 'ABCD-EFGH', seconds: 600 }, ['http://192.0.2.5:8274/phones#ABCD-EFGH']);
  expect(shown).toContain('code ABCD-EFGH');
  expect(shown).toContain('http://192.0.2.5:8274/phones#ABCD-EFGH');
  expect(shown).toMatch(/[▀▄█]{5}/);
  expect(invitation({ code: 'ABCD-EFGH', seconds: 600 }, [])).toContain(
    'no other machine can reach this one',
  );
});
