import { generateKeyPair, randomBytes, X509Certificate } from 'node:crypto';
import { isIP } from 'node:net';
import { promisify } from 'node:util';
import forge from 'node-forge';
import { PRIVATE_NETWORKS } from './addresses.ts';

export interface KeyAndCertificate {
  /** PEM */
  readonly key: string;
  readonly certificate: string;
}

const DAY_MS = 86_400_000;
const AUTHORITY_DAYS = 3650;
/** Browsers take none of more than 398 days (CA/Browser Forum Baseline Requirements 6.3.2). */
const LEAF_DAYS = 300;
const BITS = 2048;

/** A key of its own for this shop's local authority, which can vouch for nothing but this computer's network (RFC 5280, 4.2.1.10). */
export async function newAuthority(
  names: readonly string[],
  further: readonly string[],
  now: number,
): Promise<KeyAndCertificate> {
  const keys = await newKeys();
  const subject = [{ name: 'commonName', value: `Benchfold at ${names[0] ?? 'localhost'}`.slice(0, 60) }];
  return certificate({
    keys,
    by: null,
    subject,
    now,
    days: AUTHORITY_DAYS,
    extensions: [
      { name: 'basicConstraints', cA: true, pathLenConstraint: 0, critical: true },
      { name: 'keyUsage', keyCertSign: true, cRLSign: true, critical: true },
      { name: 'subjectKeyIdentifier' },
      { id: '2.5.29.30', critical: true, value: nameConstraints(names, further) },
    ],
  });
}

/** A certificate of the authority for this computer under its names and addresses. */
export async function newLeaf(
  authority: KeyAndCertificate,
  names: readonly string[],
  addresses: readonly string[],
  now: number,
): Promise<KeyAndCertificate> {
  const keys = await newKeys();
  const subject = [{ name: 'commonName', value: (names[0] ?? 'localhost').slice(0, 60) }];
  const altNames = [...names.map((value) => ({ type: 2, value })), ...addresses.map((ip) => ({ type: 7, ip }))];
  return certificate({
    keys,
    by: authority,
    subject,
    now,
    days: LEAF_DAYS,
    extensions: [
      { name: 'basicConstraints', cA: false, critical: true },
      { name: 'keyUsage', digitalSignature: true, keyEncipherment: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      { name: 'subjectAltName', altNames },
      { name: 'subjectKeyIdentifier' },
    ],
  });
}

interface NewCertificate {
  readonly keys: { readonly privateKey: string; readonly publicKey: string };
  /** null signs itself */
  readonly by: KeyAndCertificate | null;
  readonly subject: readonly object[];
  readonly now: number;
  readonly days: number;
  readonly extensions: readonly object[];
}

function certificate({ keys, by, subject, now, days, extensions }: NewCertificate): KeyAndCertificate {
  const made = forge.pki.createCertificate();
  made.publicKey = forge.pki.publicKeyFromPem(keys.publicKey);
  // Positive, and not to be guessed (RFC 5280, 4.1.2.2).
  made.serialNumber = `00${randomBytes(16).toString('hex')}`;
  // A tablet's clock may be behind.
  made.validity.notBefore = new Date(now - DAY_MS);
  made.validity.notAfter = new Date(now + days * DAY_MS);
  made.setSubject([...subject] as forge.pki.CertificateField[]);
  const issuer = by === null ? made.subject : forge.pki.certificateFromPem(by.certificate).subject;
  made.setIssuer(issuer.attributes);
  made.setExtensions([...extensions]);
  made.sign(forge.pki.privateKeyFromPem(by?.key ?? keys.privateKey), forge.md.sha256.create());
  return { key: keys.privateKey, certificate: forge.pki.certificateToPem(made) };
}

const inBackground = promisify(generateKeyPair);

async function newKeys(): Promise<{ readonly privateKey: string; readonly publicKey: string }> {
  return inBackground('rsa', {
    modulusLength: BITS,
    publicKeyEncoding: { type: 'spki', format: 'pem' },
    privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
  });
}

/** Tags of a GeneralName (RFC 5280, 4.2.1.6), by the names that the library has for these numbers elsewhere. */
const DNS_NAME = forge.asn1.Type.INTEGER;
const IP_ADDRESS = forge.asn1.Type.ODESC;

/** NameConstraints with permitted subtrees only, in DER. */
function nameConstraints(names: readonly string[], further: readonly string[]): string {
  const { asn1 } = forge;
  const subtree = (type: forge.asn1.Type, value: string) =>
    asn1.create(asn1.Class.UNIVERSAL, asn1.Type.SEQUENCE, true, [
      asn1.create(asn1.Class.CONTEXT_SPECIFIC, type, false, value),
    ]);
  const networks = [
    ...PRIVATE_NETWORKS,
    ...further.map((network) => ({ network, prefix: isIP(network) === 4 ? 32 : 128 })),
  ];
  const permitted = asn1.create(asn1.Class.CONTEXT_SPECIFIC, asn1.Type.NONE, true, [
    ...names.map((name) => subtree(DNS_NAME, name)),
    ...networks.map(({ network, prefix }) => subtree(IP_ADDRESS, addressBytes(network) + maskBytes(network, prefix))),
  ]);
  const all = asn1.create(asn1.Class.UNIVERSAL, asn1.Type.SEQUENCE, true, [permitted]);
  return asn1.toDer(all).getBytes();
}

function addressBytes(address: string): string {
  return (forge.util as unknown as { bytesFromIP(ip: string): string | null }).bytesFromIP(address) ?? '';
}

function maskBytes(address: string, prefix: number): string {
  const length = isIP(address) === 4 ? 4 : 16;
  return Array.from({ length }, (_, at) =>
    String.fromCharCode((0xff00 >> Math.max(0, Math.min(8, prefix - at * 8))) & 0xff),
  ).join('');
}

/** SHA-256 over the certificate's DER, as browsers and systems show it. */
export function fingerprintOf(pem: string): string {
  return new X509Certificate(pem).fingerprint256;
}
