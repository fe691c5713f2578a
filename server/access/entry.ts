import { isPin, newCode, newSecret, pinHash, secretHash } from './secrets.ts';
import type { Access } from './access.ts';
import { addressSubject, type Tried } from './tries.ts';
import { addDevice, revokeDevice } from '#server/store/access-devices.ts';
import {
  forgetTries,
  isGoodCode,
  pins,
  removePin,
  saveCode,
  savePin,
  useCode,
  type CodeKind,
} from '#server/store/access-secrets.ts';
import { addSession, endSessions } from '#server/store/access-sessions.ts';
import { recordChange } from '#server/store/changes.ts';
import { inTransaction } from '#server/store/in-transaction.ts';
import type { StoreOrTransaction } from '#server/store/open.ts';
import { CODE_LASTS_MS, CODE_TRIES, type Place } from '#shared/access/limits.ts';

/** Keeps a new code's hash in the store, and tells the code. */
export async function makeCode(
  store: StoreOrTransaction,
  kind: CodeKind,
  now: number,
): Promise<{ readonly code: string; readonly endsAt: number }> {
  const code = newCode();
  const endsAt = now + CODE_LASTS_MS[kind];
  await saveCode(store, { kind, hash: secretHash(code), endsAt });
  return { code, endsAt };
}

/** At one address; more than a day's mistakes, and far too few to find a badge by trying. */
const WRONG_BADGES = { most: 20, each: 15 * 60_000 } as const;

/** Where a try comes from: the network's address, and which paired device it is. */
export interface TriedBy {
  readonly address: string | undefined;
  readonly device?: number | null;
}

interface WrongTry {
  readonly about: string;
  readonly with: string;
  readonly from: Place;
  readonly by: TriedBy;
}

/** What is done to come in, and to keep others out: codes, pairing, PINs, sessions. */
export class Entry {
  readonly #access: Access;
  /** who may do what became different: screens are looked at anew */
  readonly #changed: () => Promise<void>;

  constructor(access: Access, changed: () => Promise<void>) {
    this.#access = access;
    this.#changed = changed;
  }

  /** A new code; only its hash is kept, and the one before is good no more. */
  async makeCode(kind: CodeKind): Promise<{ readonly code: string; readonly endsAt: number }> {
    const { store, clock } = this.#access.parts;
    return makeCode(store, kind, clock.now());
  }

  /** Uses a code up, in whatever groups its digits were typed. */
  useCode(kind: CodeKind, code: string, by: TriedBy): Promise<Tried<true>> {
    return this.#tryCode(useCode, { kind, code, by });
  }

  /** Whether a code is the one that is good now; it stays good. A wrong one is counted as if it was to be used. */
  checkCode(kind: CodeKind, code: string, by: TriedBy): Promise<Tried<true>> {
    return this.#tryCode(isGoodCode, { kind, code, by });
  }

  async #tryCode(
    look: typeof useCode,
    { kind, code, by }: { readonly kind: CodeKind; readonly code: string; readonly by: TriedBy },
  ): Promise<Tried<true>> {
    const { store, clock } = this.#access.parts;
    const tried = await this.#access.tries.attempt<true>([{ name: `${addressSubject(by.address)} code` }], async () => {
      const asked = { kind, hash: secretHash(code.replace(/\D/g, '')), now: clock.now() };
      return (await look(store, { ...asked, tries: CODE_TRIES, lasts: CODE_LASTS_MS[kind] })) ? true : null;
    });
    return this.#recorded(tried, { about: '', with: `${kind} code`, from: kind === 'pair' ? 'bench' : 'office', by });
  }

  /** The secret that makes a browser a paired device of the shop. */
  async pair(name: string): Promise<string> {
    const { store, clock } = this.#access.parts;
    const secret = newSecret();
    await addDevice(store, { name, hash: secretHash(secret), now: clock.now() });
    return secret;
  }

  async revoke(device: number): Promise<boolean> {
    const { store, clock } = this.#access.parts;
    const revoked = await revokeDevice(store, device, clock.now());
    if (revoked) await endSessions(store, { device }, clock.now());
    await this.#changed();
    return revoked;
  }

  /** Whether this is somebody's PIN; a wrong one is counted for the person and for the address. */
  async checkPin(person: string, pin: string, from: Place, by: TriedBy): Promise<Tried<true>> {
    const subjects = [{ name: `person:${person}` }, { name: addressSubject(by.address) }];
    const isKnown = this.#access.roleOf(person) !== null;
    const tried = await this.#access.tries.attempt<true>(subjects, async () => {
      const kept = (await pins(this.#access.parts.store)).get(person);
      return (await isPin(pin, kept)) && isKnown ? true : null;
    });
    // What somebody made up may be anything.
    return this.#recorded(tried, { about: isKnown ? person : '', with: 'pin', from, by });
  }

  /** Whose badge this is. */
  async checkBadge(badge: string, by: TriedBy): Promise<Tried<string>> {
    const from = addressSubject(by.address);
    // Whoever has a badge could else guess those of others between two scans of it.
    const subjects = [{ name: `${from} badge` }, { name: `${from} badges`, slowly: WRONG_BADGES }];
    const tried = await this.#access.tries.attempt(subjects, () =>
      Promise.resolve(this.#access.parts.shops.current.staff.find((each) => each.badge === badge)?.id ?? null),
    );
    return this.#recorded(tried, { about: '', with: 'badge', from: 'bench', by });
  }

  /** So many strange texts were read at a bench that somebody may be guessing badges there. */
  async badgesGuessed(bench: string): Promise<void> {
    const { store, clock } = this.#access.parts;
    const told = {
      what: 'locked-out',
      about: '',
      who: null,
      from: 'bench',
      details: { with: 'badge', bench },
    } as const;
    await recordChange(store, told, clock.now());
  }

  /**
   * A wrong try that was looked at is in the record of changes. One that has to wait is not: the waits bound how much a
   * stranger can write there.
   */
  async #recorded<Found>(tried: Tried<Found>, { about, from, by, ...told }: WrongTry): Promise<Tried<Found>> {
    if (tried.ok || tried.wait > 0) return tried;
    const { store, clock } = this.#access.parts;
    const details = {
      with: told.with,
      ...(by.address === undefined ? {} : { address: by.address.replace(/^::ffff:/i, '') }),
      ...(by.device == null ? {} : { device: String(by.device) }),
      ...(tried.locks > 0 ? { seconds: String(Math.ceil(tried.locks / 1000)) } : {}),
    };
    const what = tried.locks > 0 ? 'locked-out' : 'signed-in-failed';
    await recordChange(store, { what, about, who: null, from, details }, clock.now());
    return tried;
  }

  /** Sets a PIN, or takes it away. Whoever was signed in as that person is signed out. */
  async setPin(person: string, pin: string | null): Promise<void> {
    const { store, clock } = this.#access.parts;
    const hash = pin === null ? null : await pinHash(pin);
    await forgetTries(store, [`person:${person}`]);
    await inTransaction(store, async (transaction) => {
      if (hash === null) await removePin(transaction, person);
      else await savePin(transaction, { person, hash, now: clock.now() });
      await endSessions(transaction, { person }, clock.now());
    });
    this.#access.pinsChanged();
    await this.#changed();
  }

  /** Begins a session at the office; answers the secret of its cookie. */
  async enterOffice(person: string, device: number | null): Promise<string> {
    const { store, clock } = this.#access.parts;
    const secret = newSecret();
    const now = clock.now();
    await addSession(store, { place: 'office', hash: secretHash(secret), device, person, shown: 'pin', now });
    await this.#changed();
    return secret;
  }

  /** Begins a session at the bench of a paired device, in place of whoever was signed in there. */
  async enterBench(person: string, device: number, shown: 'pin' | 'badge'): Promise<void> {
    const { store, clock } = this.#access.parts;
    const now = clock.now();
    await inTransaction(store, async (transaction) => {
      await endSessions(transaction, { device, place: 'bench' }, now);
      await addSession(transaction, { place: 'bench', hash: null, device, person, shown, now });
    });
    await this.#changed();
  }

  async leave(which: { readonly id: number } | { readonly device: number; readonly place: Place }): Promise<void> {
    const { store, clock } = this.#access.parts;
    await endSessions(store, which, clock.now());
    await this.#changed();
  }
}
