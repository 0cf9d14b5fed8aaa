import { execFileSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { afterEach, describe, expect, test } from 'vitest';
import { createAuthority, issueLeaf, LEAF_DAYS, permittedNames } from '../../../server/tls/authority.ts';
import { openTls, type Tls, type TlsPorts } from '../../../server/tls/keep.ts';
import { isOfABoat, subjectOf } from '../../../server/tls/names.ts';

const NOW = Date.UTC(2026, 10, 25);
const DAY = 86_400_000;
const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

function rig(told: Partial<TlsPorts> = {}) {
  const data = told.data ?? mkdtempSync(join(tmpdir(), 'hawse-tls-'));
  folders.push(data);
  const notes: string[] = [];
  const ports: TlsPorts = {
    data,
    boat: 'Sand, "piper" = +x',
    names: ['localhost', 'boat', 'boat.local'],
    addresses: () => ['192.168.4.7'],
    now: () => NOW,
    note: (text) => notes.push(text),
    ...told,
  };
  return { data, notes, ports, open: (more: Partial<TlsPorts> = {}) => openTls({ ...ports, ...more }) };
}
const leafOf = (tls: Tls) => new X509Certificate(tls.context().cert);

/** Whether node's TLS (OpenSSL) takes the server for `host`, trusting only the boat's root. */
async function shakes(context: { cert: string; key: string }, ca: string, host: string): Promise<string> {
  const server = createServer(context).listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  try {
    return await new Promise((resolve) => {
      const socket = connect({
        host: '127.0.0.1',
        port: (server.address() as AddressInfo).port,
        ca,
        // An address is checked against the certificate like a name, but not sent as one.
        ...(/^[\d.]+$/.test(host) ? {} : { servername: host }),
        checkServerIdentity: (_name, certificate) => checkHost(host, certificate.raw),
      });
      socket.once('secureConnect', () => {
        socket.destroy();
        resolve('trusted');
      });
      socket.once('error', (error: NodeJS.ErrnoException) => resolve(`${error.code}: ${error.message}`));
    });
  } finally {
    server.closeAllConnections();
    server.close();
  }
}
function checkHost(host: string, raw: Buffer): Error | undefined {
  const certificate = new X509Certificate(raw);
  const fits = /^[\d.]+$/.test(host) ? certificate.checkIP(host) : certificate.checkHost(host);
  return fits ? undefined : Object.assign(new Error(host), { code: 'NOT-ITS-NAME' });
}

function hasOpenssl(): boolean {
  try {
    execFileSync('openssl', ['version'], { stdio: 'ignore' });
    return true;
  } catch {
    console.warn('NOT TESTED: openssl is absent, so only node’s own TLS has judged the certificates.');
    return false;
  }
}
/** What `openssl verify` says of the chain. */
function verify(root: string, chain: string, ...options: string[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-openssl-'));
  folders.push(folder);
  const put = (name: string, text: string) => {
    const file = join(folder, name);
    writeFileSync(file, text);
    return file;
  };
  const [leaf = '', issuing = ''] = chain.split(/(?<=-----END CERTIFICATE-----)\n/);
  const at = ['-attime', String(NOW / 1000)];
  try {
    return execFileSync(
      'openssl',
      [
        'verify',
        ...at,
        '-purpose',
        'sslserver',
        '-x509_strict',
        ...options,
        '-CAfile',
        put('root', root),
        '-untrusted',
        put('issuing', issuing),
        put('leaf', leaf),
      ],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] },
    );
  } catch (error) {
    return String((error as { stderr?: string }).stderr ?? error);
  }
}

describe('the authority', () => {
  test('node takes the server under her names and addresses, and nobody takes it without her root', async () => {
    const now = { now: () => Date.now() };
    const tls = await rig(now).open();
    const other = await rig(now).open();
    for (const host of ['boat.local', 'boat', 'localhost', '192.168.4.7', '127.0.0.1'])
      expect([host, await shakes(tls.context(), tls.root.pem, host)]).toEqual([host, 'trusted']);
    expect(await shakes(tls.context(), tls.root.pem, 'other.local')).toMatch('NOT-ITS-NAME');
    expect(await shakes(tls.context(), other.root.pem, 'boat.local')).toMatch(/UNABLE|SELF_SIGNED|SIGNATURE/);
  });

  test('openssl verifies the chain, strictly, for name and address', async () => {
    if (!hasOpenssl()) return;
    const tls = await rig().open();
    const { cert } = tls.context();
    expect(verify(tls.root.pem, cert, '-verify_hostname', 'boat.local')).toMatch(/OK/);
    expect(verify(tls.root.pem, cert, '-verify_ip', '192.168.4.7')).toMatch(/OK/);
    expect(verify(tls.root.pem, cert, '-verify_hostname', 'bank.example')).toMatch(/[Hh]ostname mismatch/);
  });

  test('name constraints: what she would sign for a foreign name or a public address is refused', async () => {
    const authority = await createAuthority('x', ['boat.local'], NOW);
    expect(permittedNames(authority.issuing)).toEqual(['boat.local']);
    const now = await createAuthority('x', ['boat.local'], Date.now());
    const forged = async (subject: { dns: string[]; ips: string[] }) => {
      const { chain, key } = await issueLeaf(now, subject, Date.now());
      return shakes({ cert: chain, key }, now.root, subject.dns[0] ?? subject.ips[0]!);
    };
    expect(await forged({ dns: ['boat.local'], ips: [] })).toBe('trusted');
    expect(await forged({ dns: ['below.boat.local'], ips: [] })).toBe('trusted');
    expect(await forged({ dns: ['bank.example'], ips: [] })).toMatch(/permitted subtree violation/);
    expect(await forged({ dns: ['notboat.local'], ips: [] })).toMatch(/permitted subtree violation/);
    expect(await forged({ dns: [], ips: ['192.0.2.8'] })).toMatch(/permitted subtree violation/);
    expect(await forged({ dns: [], ips: ['10.1.2.3'] })).toBe('trusted');
    if (!hasOpenssl()) return;
    const { chain } = await issueLeaf(authority, { dns: ['bank.example'], ips: [] }, NOW);
    expect(verify(authority.root, chain)).toMatch(/permitted subtree violation/);
  });

  test('follows what Apple asks of certificates (support article 103769)', async () => {
    const tls = await rig().open();
    const leaf = leafOf(tls);
    expect(leaf.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' });
    expect(leaf.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']);
    expect((Date.parse(leaf.validTo) - Date.parse(leaf.validFrom)) / DAY).toBeLessThanOrEqual(825);
    expect(LEAF_DAYS).toBeLessThan(825);
    expect(leaf.subjectAltName).toContain('IP Address:192.168.4.7');
    expect(leaf.ca).toBe(false);
  });

  test('the root’s key is not kept', async () => {
    const { data, open } = rig();
    const tls = await open();
    const file = readFileSync(join(data, 'tls', 'authority.pem'), 'utf8');
    expect(file.match(/PRIVATE KEY-----\n/g)).toHaveLength(2);
    const { createPrivateKey } = await import('node:crypto');
    const key = createPrivateKey(/-----BEGIN PRIVATE[\s\S]*/.exec(file)![0]);
    expect(new X509Certificate(tls.root.pem).checkPrivateKey(key)).toBe(false);
  });
});

describe('what is kept', () => {
  test('only this user may read the keys; a second start changes nothing', async () => {
    const { data, open, notes } = rig();
    const first = await open();
    for (const file of ['authority.pem', 'leaf.pem'])
      expect(statSync(join(data, 'tls', file)).mode & 0o777).toBe(0o600);
    const second = await open();
    expect([second.root, second.context()]).toEqual([first.root, first.context()]);
    expect(await second.renew()).toBe(false);
    expect(notes).toEqual([]);
  });

  test('another address or name: a new leaf under the same root', async () => {
    const { open, notes } = rig();
    let addresses = ['192.168.4.7'];
    const tls = await open({ addresses: () => addresses });
    const before = tls.context();
    addresses = ['10.0.0.5', 'fd00::1:5', 'fe80::1', '2001:db8::5', '203.0.113.9'];
    expect(await tls.renew()).toBe(true);
    expect(tls.context()).not.toEqual(before);
    expect(tls.subject().ips).toEqual(['10.0.0.5', '127.0.0.1', '::1', 'fd00::1:5']);
    expect(await tls.renew()).toBe(false);
    const again = await open({ addresses: () => addresses });
    expect(again.context()).toEqual(tls.context());
    expect(again.root.fingerprint).toBe(tls.root.fingerprint);
    expect(notes).toEqual([]);
  });

  test('30 days before its end the leaf is renewed, not before; the root stays', async () => {
    const { open } = rig();
    let now = NOW;
    const tls = await open({ now: () => now });
    const end = Date.parse(leafOf(tls).validTo);
    now = end - 30 * DAY;
    expect(await tls.renew()).toBe(false);
    now = end - 30 * DAY + 1000;
    expect(await tls.renew()).toBe(true);
    expect(Date.parse(leafOf(tls).validTo)).toBeGreaterThan(end + 700 * DAY);
  });

  test('a name that the authority may not speak for is left out and told', async () => {
    const { open, notes } = rig();
    await open();
    const tls = await open({ names: ['boat.local', 'other.example'] });
    expect(tls.subject().dns).toEqual(['boat.local']);
    expect(notes).toEqual([expect.stringMatching(/not served under other\.example/)]);
    await tls.renew();
    expect(notes).toHaveLength(1);
  });

  test.each([
    ['empty', () => ''],
    ['cut short', (text: string) => text.slice(0, text.length / 2)],
    ['nonsense', () => 'garbage\n'.repeat(50)],
    ['flipped', (text: string) => text.replace(/MII(..)/g, 'MII$1A')],
  ])('a damaged authority (%s) is made anew with a note', async (_what, damage) => {
    const { data, open, notes } = rig();
    const first = await open();
    const file = join(data, 'tls', 'authority.pem');
    writeFileSync(file, damage(readFileSync(file, 'utf8')));
    const second = await open();
    expect(second.root.fingerprint).not.toBe(first.root.fingerprint);
    expect(notes).toEqual([expect.stringMatching(/made anew, since its file was damaged: every phone/)]);
    expect(new X509Certificate(second.context().cert).issuer).toContain('issuing');
  });

  test('the authority of another boat in the file, or another key: made anew', async () => {
    const { data, open, notes } = rig();
    await open();
    const other = rig();
    await other.open();
    const file = join(data, 'tls', 'authority.pem');
    const foreign = readFileSync(join(other.data, 'tls', 'authority.pem'), 'utf8');
    const own = readFileSync(file, 'utf8');
    writeFileSync(
      file,
      own.replace(/-----BEGIN PRIVATE[\s\S]*/, /-----BEGIN PRIVATE[\s\S]*/.exec(foreign)![0]),
    );
    await open();
    expect(notes).toHaveLength(1);
  });

  test('a damaged leaf is made anew under the same root', async () => {
    const { data, open, notes } = rig();
    const first = await open();
    writeFileSync(join(data, 'tls', 'leaf.pem'), 'x');
    const second = await open();
    expect(second.root.fingerprint).toBe(first.root.fingerprint);
    expect(notes).toEqual([expect.stringMatching(/certificate for https was damaged/)]);
  });

  test('an authority whose time is over is made anew with a note', async () => {
    const { open, notes } = rig();
    await open();
    await open({ now: () => NOW + 3640 * DAY });
    expect(notes).toEqual([expect.stringMatching(/its time is over/)]);
  });

  test('a computer that believes it is 1970 makes certificates that hold today', async () => {
    const tls = await rig().open({ now: () => 0 });
    const leaf = leafOf(tls);
    expect(Date.parse(leaf.validFrom)).toBeLessThan(NOW);
    expect(Date.parse(leaf.validTo)).toBeGreaterThan(NOW);
  });

  test('a folder that cannot be written rejects', async () => {
    const { data, open } = rig();
    writeFileSync(join(data, 'tls'), 'a file in the way');
    await expect(open()).rejects.toThrow();
  });
});

describe('names', () => {
  test('small letters, each once, in order; what a certificate cannot carry is left out', () => {
    expect(
      subjectOf(['Boat', 'boat', 'boat.local.', 'my_boat', 'a b', '10.0.0.1', ''], ['10.0.0.1']),
    ).toEqual({
      dns: ['boat', 'boat.local'],
      ips: ['10.0.0.1', '127.0.0.1', '::1'],
    });
  });

  test.each([
    ['10.255.0.1', true],
    ['172.16.0.1', true],
    ['172.31.255.255', true],
    ['172.32.0.1', false],
    ['192.168.0.1', true],
    ['192.169.0.1', false],
    ['169.254.7.7', true],
    ['8.8.8.8', false],
    ['fd12:3456::1', true],
    ['2001:db8::1', false],
    ['fe80::1', false],
    ['nonsense', false],
  ])('%s is of a boat: %s', (address, is) => {
    expect(isOfABoat(address)).toBe(is);
  });
});
