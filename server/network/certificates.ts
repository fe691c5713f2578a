import { createPrivateKey, X509Certificate } from 'node:crypto';
import { existsSync, openSync, closeSync, fsyncSync, readFileSync, renameSync, writeSync } from 'node:fs';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { isPrivate, reachableAddresses } from './addresses.ts';
import { fingerprintOf, newAuthority, newLeaf, type KeyAndCertificate } from './authority.ts';
import type { Clock } from '#server/clock.ts';
import { makeFolder } from '#server/make-folder.ts';

/** So long before its end a certificate is made anew. */
const RENEW_BEFORE_MS = 30 * 86_400_000;

/** What the server shows, and the authority that vouches for it. */
export interface LocalCertificates {
  readonly authority: string;
  readonly fingerprint: string;
  readonly leaf: KeyAndCertificate;
  /** names and addresses for which the authority may not vouch, as it was made before they were there */
  readonly leftOut: readonly string[];
}

/**
 * The certificates in a folder; made where they are missing, near their end, or for another address. A tablet that trusts
 * the authority trusts every certificate that follows. Keys are readable by their owner alone.
 */
export async function localCertificates(
  folder: string,
  names: readonly string[],
  clock: Clock,
  addresses: readonly string[] = reachableAddresses(),
): Promise<LocalCertificates> {
  makeFolder(folder, 0o700);
  const now = clock.now();
  const authority = kept(folder, 'authority', now) ?? (await makeAuthority(folder, names, addresses, now));
  const vouched = readFileSync(join(folder, VOUCHED), 'utf8').split('\n');
  const may = (name: string): boolean =>
    isIP(name) === 0
      ? vouched.some((each) => name === each || name.endsWith(`.${each}`))
      : isPrivate(name) || vouched.includes(name);
  const wanted = [...names, '127.0.0.1', '::1', ...addresses];
  const good = wanted.filter(may);
  const before = kept(folder, 'server', now);
  const leaf =
    before !== null && isGoodFor(before, authority, good)
      ? before
      : keep(
          folder,
          'server',
          await newLeaf(
            authority,
            good.filter((each) => isIP(each) === 0),
            good.filter((each) => isIP(each) !== 0),
            now,
          ),
        );
  return {
    authority: authority.certificate,
    fingerprint: fingerprintOf(authority.certificate),
    leaf,
    leftOut: wanted.filter((each) => !may(each)),
  };
}

/** Names and addresses that an authority may vouch for, beside private addresses. */
const VOUCHED = 'authority.names';

async function makeAuthority(
  folder: string,
  names: readonly string[],
  addresses: readonly string[],
  now: number,
): Promise<KeyAndCertificate> {
  const further = addresses.filter((each) => !isPrivate(each));
  write(join(folder, VOUCHED), [...names, ...further].join('\n'));
  return keep(folder, 'authority', await newAuthority(names, further, now));
}

/** Whether every name is on the certificate, and no other server's key signed it. */
function isGoodFor(
  { certificate }: KeyAndCertificate,
  authority: KeyAndCertificate,
  wanted: readonly string[],
): boolean {
  const leaf = new X509Certificate(certificate);
  const covers = (name: string) =>
    (isIP(name) === 0 ? leaf.checkHost(name, { subject: 'never' }) : leaf.checkIP(name)) !== undefined;
  return leaf.checkIssued(new X509Certificate(authority.certificate)) && wanted.every(covers);
}

/** A pair that was kept, unless it is not whole or near its end. */
function kept(folder: string, name: string, now: number): KeyAndCertificate | null {
  const [keyFile, certificateFile] = [join(folder, `${name}.key`), join(folder, `${name}.crt`)];
  if (!existsSync(keyFile) || !existsSync(certificateFile)) return null;
  const pair = { key: readFileSync(keyFile, 'utf8'), certificate: readFileSync(certificateFile, 'utf8') };
  try {
    const certificate = new X509Certificate(pair.certificate);
    const matches = certificate.checkPrivateKey(createPrivateKey(pair.key));
    const lasts = Date.parse(certificate.validTo) - now > RENEW_BEFORE_MS && Date.parse(certificate.validFrom) <= now;
    return matches && lasts ? pair : null;
  } catch {
    return null;
  }
}

function keep(folder: string, name: string, pair: KeyAndCertificate): KeyAndCertificate {
  write(join(folder, `${name}.key`), pair.key);
  write(join(folder, `${name}.crt`), pair.certificate);
  return pair;
}

/** Whole or not at all, and for nobody else to read. */
function write(file: string, text: string): void {
  const half = `${file}.half`;
  const opened = openSync(half, 'w', 0o600);
  try {
    writeSync(opened, text);
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
  renameSync(half, file);
}
