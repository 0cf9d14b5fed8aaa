import 'reflect-metadata';
import { webcrypto } from 'node:crypto';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName as AsnGeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import { PERMITTED_NETS, type Subject } from './names.ts';

const KEYS = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const DAY_MS = 86_400_000;
/** Clocks of phones and boats differ. */
const EARLIER_MS = DAY_MS;
const AUTHORITY_DAYS = 3650;
/** Apple refuses leaves beyond 825 days (support article 103769). */
export const LEAF_DAYS = 800;

/** What the boat keeps of her authority: the root's key is not among it. */
export interface AuthorityPem {
  root: string;
  issuing: string;
  issuingKey: string;
}

export interface LeafPem {
  /** The leaf and the issuing certificate, as a server sends them. */
  chain: string;
  key: string;
}

/**
 * An authority of this boat alone, bound by name constraints to her names and to private networks. Two steps: the root that phones
 * trust signs one issuing certificate and its key is then forgotten, so that nobody can ever sign anything else with it, not even on
 * a device that disregards constraints in a root. Dates are UNIX milliseconds.
 */
export async function createAuthority(
  boat: string,
  dns: readonly string[],
  now: number,
): Promise<AuthorityPem> {
  const [rootKeys, issuingKeys] = await Promise.all([generate(), generate()]);
  const constraints = nameConstraints(dns);
  const dates = { notBefore: new Date(now - EARLIER_MS), notAfter: new Date(now + AUTHORITY_DAYS * DAY_MS) };
  const root = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: distinguished(`hawse of ${boat}`),
    ...dates,
    keys: rootKeys,
    signingAlgorithm: KEYS,
    extensions: [
      new x509.BasicConstraintsExtension(true, 1, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      await x509.SubjectKeyIdentifierExtension.create(rootKeys.publicKey),
      constraints,
    ],
  });
  const issuing = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: distinguished(`hawse of ${boat}, issuing`),
    issuer: root.subjectName,
    ...dates,
    publicKey: issuingKeys.publicKey,
    signingKey: rootKeys.privateKey,
    signingAlgorithm: KEYS,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      await x509.SubjectKeyIdentifierExtension.create(issuingKeys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(rootKeys.publicKey),
      constraints,
    ],
  });
  return {
    root: root.toString('pem'),
    issuing: issuing.toString('pem'),
    issuingKey: await exported(issuingKeys.privateKey),
  };
}

/** A certificate for a server under these names. Does not outlive the authority. */
export async function issueLeaf(authority: AuthorityPem, subject: Subject, now: number): Promise<LeafPem> {
  const issuing = new x509.X509Certificate(authority.issuing);
  const signingKey = await imported(authority.issuingKey);
  const keys = await generate();
  const notAfter = Math.min(now + LEAF_DAYS * DAY_MS, issuing.notAfter.getTime());
  const leaf = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    // No host name: those stand in the SAN, and OpenSSL would hold one here to the constraints too.
    subject: distinguished('hawse on board'),
    issuer: issuing.subjectName,
    notBefore: new Date(now - EARLIER_MS),
    notAfter: new Date(notAfter),
    publicKey: keys.publicKey,
    signingKey,
    signingAlgorithm: KEYS,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(await issuing.publicKey.export()),
      new x509.SubjectAlternativeNameExtension([
        ...subject.dns.map((value) => ({ type: 'dns' as const, value })),
        ...subject.ips.map((value) => ({ type: 'ip' as const, value })),
      ]),
    ],
  });
  return { chain: `${leaf.toString('pem')}\n${authority.issuing}`, key: await exported(keys.privateKey) };
}

/** Names that the authority may speak for, as it was made. */
export function permittedNames(issuingPem: string): string[] {
  const extension = new x509.X509Certificate(issuingPem).getExtension(id_ce_nameConstraints);
  if (!extension) return [];
  const { permittedSubtrees } = AsnConvert.parse(extension.value, NameConstraints);
  return (permittedSubtrees ?? []).flatMap(({ base }) => base.dNSName ?? []);
}

function nameConstraints(dns: readonly string[]): x509.Extension {
  const bases = [
    ...dns.map((dNSName) => new AsnGeneralName({ dNSName })),
    ...PERMITTED_NETS.map((iPAddress) => new AsnGeneralName({ iPAddress })),
  ];
  const permittedSubtrees = new GeneralSubtrees(bases.map((base) => new GeneralSubtree({ base })));
  const value = AsnConvert.serialize(new NameConstraints({ permittedSubtrees }));
  return new x509.Extension(id_ce_nameConstraints, true, value);
}

const generate = () => webcrypto.subtle.generateKey(KEYS, true, ['sign', 'verify']);

async function exported(key: webcrypto.CryptoKey): Promise<string> {
  const der = await webcrypto.subtle.exportKey('pkcs8', key);
  return x509.PemConverter.encode(der, 'PRIVATE KEY');
}

const imported = (pem: string): Promise<webcrypto.CryptoKey> =>
  webcrypto.subtle.importKey('pkcs8', x509.PemConverter.decodeFirst(pem), KEYS, false, ['sign']);

/** 126 random bits; positive, as RFC 5280 asks. */
function serial(): string {
  const bytes = webcrypto.getRandomValues(new Uint8Array(16));
  bytes[0] = (bytes[0]! & 0x3f) | 0x40;
  return Buffer.from(bytes).toString('hex');
}

/** The library reads quotes, # and backslashes in a name as signs of its own. 64 characters: RFC 5280, ub-common-name. */
const distinguished = (name: string): x509.JsonName => [
  {
    CN: [
      name
        .replace(/["#\\\p{C}]+/gu, ' ')
        .slice(0, 64)
        .trim(),
    ],
  },
];
