import { createHash, randomBytes, randomInt } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';
import { CODE_DIGITS } from '#shared/access/limits.ts';

/** Argon2id as RFC 9106 defines it, with the memory and passes that the OWASP cheat sheet names as least (from memory). */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
/** Each takes 19 MB and a processor: strangers must not have more of them. */
const AT_ONCE = 2;
const LONGEST_QUEUE = 20;

let running = 0;
const waiting: (() => void)[] = [];

/** Too many PINs are being looked at. */
export class TooBusy extends Error {
  override readonly name = 'TooBusy';
}

async function inTurn<Done>(work: () => Promise<Done>): Promise<Done> {
  if (running >= AT_ONCE) {
    if (waiting.length >= LONGEST_QUEUE) throw new TooBusy('too many PINs are being looked at');
    await new Promise<void>((turn) => waiting.push(turn));
  } else running += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    if (next === undefined) running -= 1;
    else next();
  }
}

/** What is kept of a PIN: Argon2id with a salt of its own, as a PHC string. Made beside the loop, not on it. */
export function pinHash(pin: string): Promise<string> {
  return inTurn(() => hash(pin, COST));
}

/** Somebody without a PIN takes as long to refuse as somebody with one. */
let decoy: Promise<string> | null = null;

export async function isPin(pin: string, kept: string | undefined): Promise<boolean> {
  decoy ??= pinHash(randomBytes(12).toString('hex'));
  const against = kept ?? (await decoy);
  return (await inTurn(() => verify(against, pin))) && kept !== undefined;
}

/** 256 random bits, for a cookie. */
export function newSecret(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a cookie or a code. Cookies are long and random; codes are few tries from being useless. */
export function secretHash(secret: string): string {
  return createHash('sha256').update(secret, 'utf8').digest('hex');
}

/** Digits to be read out and typed: `4071 9938`. */
export function newCode(): string {
  return String(randomInt(10 ** CODE_DIGITS)).padStart(CODE_DIGITS, '0');
}

export function spacedCode(code: string): string {
  return `${code.slice(0, CODE_DIGITS / 2)} ${code.slice(CODE_DIGITS / 2)}`;
}
