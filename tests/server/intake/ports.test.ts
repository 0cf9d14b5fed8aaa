import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { denied, portFault, serialPortsHere } from '../../../server/intake/ports.ts';
import { ptyPair } from './pty.ts';

/** A computer with one USB adapter, one real UART, one place for a UART without any, and a console. */
function computer() {
  const root = mkdtempSync(join(tmpdir(), 'hawse-ports-'));
  const roots = { terminals: join(root, 'tty'), dev: join(root, 'dev'), groups: join(root, 'group') };
  const add = (name: string, type?: string, hasDevice = true) => {
    mkdirSync(join(roots.terminals, name, ...(hasDevice ? ['device'] : [])), { recursive: true });
    if (type !== undefined) writeFileSync(join(roots.terminals, name, 'type'), `${type}\n`);
    mkdirSync(roots.dev, { recursive: true });
    writeFileSync(join(roots.dev, name), '');
  };
  add('ttyUSB10');
  add('ttyUSB2');
  add('ttyAMA0', '32');
  add('ttyS1', '0');
  add('tty1', undefined, false);
  mkdirSync(join(roots.dev, 'serial', 'by-id'), { recursive: true });
  symlinkSync(
    join(roots.dev, 'ttyUSB2'),
    join(roots.dev, 'serial', 'by-id', 'usb-FTDI_FT232R_USB_UART_A1-if00-port0'),
  );
  return roots;
}

describe('the serial ports of this computer', () => {
  test('are those with a device behind them, in order, with what is plugged in', async () => {
    const roots = computer();
    expect(await serialPortsHere(roots)).toEqual([
      { path: join(roots.dev, 'ttyAMA0') },
      { path: join(roots.dev, 'ttyUSB2'), what: 'FTDI FT232R USB UART A1' },
      { path: join(roots.dev, 'ttyUSB10') },
    ]);
  });

  test('a port that is missing names those that are here', async () => {
    const roots = computer();
    expect(await portFault(join(roots.dev, 'ttyUSB7'), roots)).toEqual({
      text: `there is no ${join(roots.dev, 'ttyUSB7')}`,
      cure: expect.stringContaining('ttyUSB10'),
    });
  });

  test('a file is no port', async () => {
    const roots = computer();
    expect((await portFault(join(roots.dev, 'ttyUSB2'), roots))?.text).toContain('is no serial port');
  });

  test('one that this user may use has no fault', async () => {
    const pair = await ptyPair();
    if (!pair) return;
    expect(await portFault(pair.device)).toBeUndefined();
    await pair.close();
  });

  const groups = 'root:x:0:\ndialout:x:20:ann,ben\naudio:x:29:\n';
  test.each([
    ['cat', 20, 'the group dialout', 'sudo usermod -aG dialout cat'],
    ['ben', 20, 'the group dialout', 'log out and in again'],
    ['cat', 99, 'the group 99', 'sudo usermod -aG 99 cat'],
  ])('what %s may not open in group %i is told with the way in', (user, gid, text, cure) => {
    const found = denied('/dev/ttyUSB0', user, gid, groups);
    expect(found.text).toContain(text);
    expect(found.cure).toContain(cure);
    expect(found.cure.includes('usermod')).toBe(user !== 'ben');
  });
});
