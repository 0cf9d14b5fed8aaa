import type { AddressInfo } from 'node:net';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { addressesOf, pairingAddress } from '../../../server/api/addresses.ts';
import { PAGES } from '../../../server/api/pages.ts';
import { emptyFolder, PHONE, rig } from './help.ts';

describe('the pages', () => {
  test.each(PAGES)('%s is the one index.html, asked for anew each time', async (path) => {
    const { ask } = await rig();
    const reply = await ask('GET', path, undefined, { from: PHONE });
    expect(reply).toMatchObject({ status: 200, headers: { 'cache-control': 'no-cache' } });
    expect(reply.type).toMatch(/^text\/html/);
    expect(reply.text).toContain('<title>hawse</title>');
  });

  test('the paths that contracts name are among them', () => {
    expect(PAGES).toEqual(expect.arrayContaining(['/', '/watch', '/plan', '/weigh', '/foredeck']));
  });

  test('what has a hash in its name is kept for long, all else is asked for anew', async () => {
    const { ask } = await rig();
    expect((await ask('GET', '/assets/index-a1b2c3.js')).headers['cache-control']).toBe(
      'public, max-age=31536000, immutable',
    );
    expect((await ask('GET', '/anchor.svg')).headers['cache-control']).toBe('no-cache');
    expect((await ask('GET', '/index.html')).headers['cache-control']).toBe('no-cache');
  });

  test.each([
    '/assets/',
    '/assets/nothing.js',
    '/nowhere',
    '/../../etc/passwd',
    '/..%2f..%2fetc%2fpasswd',
    '/.env',
  ])('nothing else is served: %s', async (path) => {
    const { ask } = await rig();
    const reply = await ask('GET', path);
    expect(reply.status).toBeGreaterThanOrEqual(400);
    expect(reply.status).toBeLessThan(500);
    expect(reply.type).toMatch(/problem\+json/);
    expect(reply.text).not.toContain('root:');
  });

  test('a page takes everything from the boat, nothing from elsewhere, and may not be framed', async () => {
    const { ask } = await rig();
    const { headers } = await ask('GET', '/');
    const policy = String(headers['content-security-policy']).split(';');
    expect(policy).toEqual(
      expect.arrayContaining([
        "default-src 'self'",
        "style-src 'self'",
        "connect-src 'self' ws: wss:",
        "frame-ancestors 'none'",
      ]),
    );
    // On plain http these would break the page or fill its console.
    expect(String(headers['content-security-policy'])).not.toMatch(/upgrade-insecure|unsafe|https?:/);
    expect(headers).not.toHaveProperty('strict-transport-security');
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  test('a missing build is told, and the calls work without it', async () => {
    const { ask } = await rig({ webRoot: emptyFolder() });
    const reply = await ask('GET', '/');
    expect(reply).toMatchObject({ status: 503, json: { type: 'urn:hawse:problem:no-pages' } });
    expect(reply.json.detail).toContain('npm run build');
    expect((await ask('GET', 'state')).status).toBe(200);
  });

  test('a folder of pages that is not there at all does not keep the watch from starting', async () => {
    const { ask } = await rig({ webRoot: join(emptyFolder(), 'nowhere', 'web') });
    expect((await ask('GET', '/')).status).toBe(503);
    expect((await ask('GET', 'state')).status).toBe(200);
  });
});

describe('addresses', () => {
  test('here, and on the network; the code behind a #, which no request carries', () => {
    expect(addressesOf('127.0.0.1', 8274)).toEqual({ here: ['http://127.0.0.1:8274/'], others: [] });
    expect(addressesOf('::1', 8274).here).toEqual(['http://[::1]:8274/']);
    expect(addressesOf('192.0.2.5', 8274)).toEqual({ here: [], others: ['http://192.0.2.5:8274/'] });
    const all = addressesOf('0.0.0.0', 8274);
    expect(all.here).toEqual(['http://localhost:8274/']);
    for (const address of all.others) expect(address).toMatch(/^http:\/\/[\d.]+:8274\/$/);
    expect(pairingAddress('http://192.0.2.5:8274/', 'ABCD-EFGH')).toBe(
      'http://192.0.2.5:8274/phones#ABCD-EFGH',
    );
  });

  test('port 0 takes a free port, and the page is there', async () => {
    const { port } = await rig({ listen: true });
    const answer = await fetch(`http://127.0.0.1:${port}/`);
    expect(await answer.text()).toContain('<title>hawse</title>');
  });

  test('a port that cannot be had is told in words, with what to do', async () => {
    const taken = createServer().listen(0, '127.0.0.1');
    await new Promise((resolve) => taken.once('listening', resolve));
    const { port } = taken.address() as AddressInfo;
    const { api } = await rig();
    await expect(api.listen(port, '127.0.0.1')).rejects.toThrow(
      `Port ${port} on 127.0.0.1 is taken by another program`,
    );
    taken.close();
    const { api: other } = await rig();
    await expect(other.listen(0, '192.0.2.77')).rejects.toThrow(/no address 192\.0\.2\.77.*0\.0\.0\.0/);
  });
});
