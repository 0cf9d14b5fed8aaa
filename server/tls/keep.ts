import { createPrivateKey, X509Certificate } from 'node:crypto';
import { join } from 'node:path';
import { type AuthorityPem, createAuthority, issueLeaf, type LeafPem, permittedNames } from './authority.ts';
import { partsOf, readText, writeSecret } from './files.ts';
import { hostName, isWithin, type Subject, subjectOf } from './names.ts';

export interface TlsPorts {
  /** Folder of the journal; keys lie in its folder `tls`. */
  data: string;
  boat: string;
  /** Host names of the boat's computer. */
  names: readonly string[];
  /** Its addresses at this moment. */
  addresses(): readonly string[];
  /** The computer's clock, UNIX milliseconds. */
  now(): number;
  /** Something a person should know, once. */
  note(text: string): void;
}

/** The boat's own authority and the certificate of her server. */
export interface Tls {
  context(): { cert: string; key: string };
  root: { pem: string; der: Buffer; fingerprint: string; until: number };
  /** What the certificate speaks for now. */
  subject(): Subject;
  /** Makes a new certificate when names or addresses have changed or its end is near; true when it has. */
  renew(): Promise<boolean>;
}

/** A leaf is renewed so long before its end. */
const RENEW_MS = 30 * 86_400_000;
/** No clock that shows less is right: a computer without a battery clock begins in 1970. */
const EARLIEST = Date.UTC(2026, 0, 1);

/**
 * Reads the boat's authority and certificate, or makes them. What is damaged, does not fit together or has ended is made anew and
 * noted. Rejects when nothing can be written.
 */
export async function openTls(ports: TlsPorts): Promise<Tls> {
  const { data, boat, names, addresses, note } = ports;
  const authorityFile = join(data, 'tls', 'authority.pem');
  const leafFile = join(data, 'tls', 'leaf.pem');
  const now = () => Math.max(EARLIEST, ports.now());
  let isToldLeft = '';

  const wanted = (): Subject => {
    const all = subjectOf(names, addresses());
    const permitted = permittedNames(authority.issuing);
    const left = all.dns.filter((name) => !isWithin(name, permitted)).join(', ');
    if (left !== '' && left !== isToldLeft)
      note(
        `https is not served under ${left}: the boat's authority was made before. Remove the folder ${join(data, 'tls')} and let every phone trust anew to change that.`,
      );
    isToldLeft = left;
    return { ...all, dns: all.dns.filter((name) => isWithin(name, permitted)) };
  };

  async function makeAuthority(): Promise<AuthorityPem> {
    const dns = names.flatMap((name) => hostName(name) ?? []);
    const made = await createAuthority(boat, [...new Set(dns)], now());
    writeSecret(authorityFile, [made.root, made.issuing, made.issuingKey, ''].join('\n'));
    return made;
  }

  async function makeLeaf(subject: Subject): Promise<LeafPem> {
    const made = await issueLeaf(authority, subject, now());
    writeSecret(leafFile, `${made.chain}\n${made.key}\n`);
    return made;
  }

  const kept = readText(authorityFile);
  const found = kept === undefined ? undefined : readAuthority(kept, now());
  if (typeof found === 'string')
    note(`The boat's authority for https was made anew, since ${found}: every phone has to trust it again.`);
  const authority = typeof found === 'object' ? found : await makeAuthority();

  const keptLeaf = readText(leafFile);
  let subject = wanted();
  let leaf = keptLeaf === undefined ? undefined : readLeaf(keptLeaf, authority);
  if (keptLeaf !== undefined && !leaf && typeof found === 'object')
    note('The certificate for https was damaged and was made anew. Phones need do nothing.');
  if (!leaf || isDue(leaf, subject, now())) leaf = await makeLeaf(subject);

  const root = new X509Certificate(authority.root);
  return {
    context: () => ({ cert: leaf!.chain, key: leaf!.key }),
    root: {
      pem: authority.root,
      der: root.raw,
      fingerprint: root.fingerprint256,
      until: Date.parse(root.validTo) / 1000,
    },
    subject: () => subject,
    async renew() {
      const next = wanted();
      if (!isDue(leaf!, next, now())) return false;
      leaf = await makeLeaf(next);
      subject = next;
      return true;
    },
  };
}

/** The authority in a file, or what is wrong with it. */
function readAuthority(pem: string, now: number): AuthorityPem | string {
  const { certificates, key } = partsOf(pem);
  const [rootPem, issuingPem] = certificates;
  if (!rootPem || !issuingPem || !key) return 'its file was damaged';
  try {
    const root = new X509Certificate(rootPem);
    const issuing = new X509Certificate(issuingPem);
    const fits =
      root.verify(root.publicKey) &&
      issuing.checkIssued(root) &&
      issuing.verify(root.publicKey) &&
      issuing.checkPrivateKey(createPrivateKey(key)) &&
      permittedNames(issuingPem).length > 0;
    if (!fits) return 'its file was damaged';
    if (Date.parse(issuing.validTo) - now < RENEW_MS) return 'its time is over';
    return { root: rootPem, issuing: issuingPem, issuingKey: key };
  } catch {
    return 'its file was damaged';
  }
}

function readLeaf(pem: string, authority: AuthorityPem): LeafPem | undefined {
  const { certificates, key } = partsOf(pem);
  const [leafPem] = certificates;
  if (!leafPem || !key) return undefined;
  try {
    const leaf = new X509Certificate(leafPem);
    const issuing = new X509Certificate(authority.issuing);
    const fits =
      leaf.checkIssued(issuing) &&
      leaf.verify(issuing.publicKey) &&
      leaf.checkPrivateKey(createPrivateKey(key));
    return fits ? { chain: `${leafPem}\n${authority.issuing}`, key } : undefined;
  } catch {
    return undefined;
  }
}

/** Its end is near, or it does not speak for what it should. One that speaks for more, as after a change of network, is renewed too. */
function isDue({ chain }: LeafPem, subject: Subject, now: number): boolean {
  const leaf = new X509Certificate(chain);
  if (Date.parse(leaf.validTo) - now < RENEW_MS) return true;
  const told = (leaf.subjectAltName ?? '').split(', ');
  const has = (name: string) => told.includes(name);
  return (
    told.length !== subject.dns.length + subject.ips.length ||
    !subject.dns.every((name) => has(`DNS:${name}`)) ||
    !subject.ips.every((ip) => has(`IP Address:${longForm(ip)}`))
  );
}

/** As OpenSSL writes an address: IPv6 in eight groups, capital letters. */
function longForm(ip: string): string {
  if (!ip.includes(':')) return ip;
  const [head = '', tail] = ip.split('::');
  const groups = (text: string) => (text === '' ? [] : text.split(':'));
  const before = groups(head);
  const after = tail === undefined ? [] : groups(tail);
  const between = Array.from(
    { length: tail === undefined ? 0 : 8 - before.length - after.length },
    () => '0',
  );
  return [...before, ...between, ...after]
    .map((group) => group.toUpperCase().replace(/^0+(?=.)/, ''))
    .join(':');
}
