import type { IncomingMessage } from 'node:http';
import { isIP } from 'node:net';
import { cookieOf } from './cookies.ts';
import { ownNames } from './known-hosts.ts';
import { secretHash } from './secrets.ts';
import { Tries } from './tries.ts';
import { NOBODY, OWNER_HERE, type Who } from './who.ts';
import type { Clock } from '#server/clock.ts';
import type { ShopHolder } from '#server/shop-holder.ts';
import { deviceWith, touchDevice } from '#server/store/access-devices.ts';
import { pins } from '#server/store/access-secrets.ts';
import { reckonAnew, sessionsOf, touchSession, type StoredSession } from '#server/store/access-sessions.ts';
import type { Store } from '#server/store/open.ts';
import { sessionEnds } from '#shared/access/limits.ts';
import { STANDINGS, type Role } from '#shared/access/roles.ts';

export interface AccessParts {
  readonly store: Store;
  readonly shops: ShopHolder;
  readonly clock: Clock;
  /** further names under which this computer is asked for */
  readonly names: readonly string[];
  /** others than this computer can reach the server */
  readonly open: boolean;
  /** it is spoken to over HTTPS */
  readonly secure: boolean;
}

/** When a device or a session was last seen is noted this coarsely. */
const NOTE_EVERY_MS = 60_000;
/** The command line, or another server of the shop, may have changed something. */
const LOOK_AGAIN_MS = 3000;

/** Who may do what in this shop: the one place that is asked. */
export class Access {
  /** under which this computer is asked for, beside its addresses */
  readonly names: readonly string[];
  readonly parts: AccessParts;
  readonly tries: Tries;
  #pinned: ReadonlySet<string> = new Set();
  #pinnedAt = -Infinity;

  constructor(parts: AccessParts) {
    this.parts = parts;
    this.names = ownNames(parts.names);
    this.tries = new Tries(parts.store, parts.clock);
  }

  /** True once somebody has a PIN, or others than this computer can reach the server: then everybody must sign in. */
  async locked(): Promise<boolean> {
    return this.parts.open || (await this.pinned()).size > 0;
  }

  /** Whether whoever asks must sign in: also where a program on this computer passes a request on for somebody else. */
  async lockedFor(request: IncomingMessage): Promise<boolean> {
    return !isHere(request) || (await this.locked());
  }

  /** Who has a PIN. */
  async pinned(): Promise<ReadonlySet<string>> {
    const now = performance.now();
    if (now - this.#pinnedAt > LOOK_AGAIN_MS) {
      this.#pinnedAt = now;
      this.#pinned = new Set((await pins(this.parts.store)).keys());
    }
    return this.#pinned;
  }

  /** A PIN was set or taken away here. */
  pinsChanged(): void {
    this.#pinnedAt = -Infinity;
  }

  /** Whether an owner of the shop can sign in. */
  async hasOwner(): Promise<boolean> {
    const pinned = await this.pinned();
    return this.parts.shops.current.staff.some(({ id, role }) => role === 'owner' && pinned.has(id));
  }

  roleOf(person: string): Role | null {
    return this.parts.shops.current.staff.find(({ id }) => id === person)?.role ?? null;
  }

  /** As whom a request, or the request that opened a socket, comes. */
  async whoFor(request: IncomingMessage): Promise<Who> {
    if (!(await this.lockedFor(request))) return OWNER_HERE;
    const { secure } = this.parts;
    const device = await this.#deviceOf(cookieOf(request, 'device', secure));
    if (device === null && !isHere(request)) return NOBODY;
    const cookie = cookieOf(request, 'session', secure);
    const sessions = await sessionsOf(this.parts.store, {
      hash: cookie === null ? null : secretHash(cookie),
      device,
    });
    const nobody: Who = { ...NOBODY, standing: 'device', device };
    const timed = await Promise.all(sessions.map((session) => this.#timed(session)));
    return timed.map((session) => this.#whoBy(session, device)).reduce(higher, nobody);
  }

  /** A session that was seen in the time to come: the clock was set back, and must keep nobody in for longer. */
  async #timed(session: StoredSession): Promise<StoredSession> {
    const now = this.parts.clock.now();
    if (session.seenAt - now < NOTE_EVERY_MS) return session;
    await reckonAnew(this.parts.store, session.id, now);
    return { ...session, madeAt: Math.min(session.madeAt, now), seenAt: now };
  }

  /** Notes that somebody did something: the session goes on. */
  async acted(who: Who): Promise<Who> {
    const now = this.parts.clock.now();
    if (who.session === null || now - who.session.seenAt < NOTE_EVERY_MS) return who;
    await touchSession(this.parts.store, who.session.id, now);
    const session = { ...who.session, seenAt: now };
    return { ...who, session, until: sessionEnds(session.place, session.madeAt, now) };
  }

  async #deviceOf(cookie: string | null): Promise<number | null> {
    if (cookie === null) return null;
    const { store, clock } = this.parts;
    const device = await deviceWith(store, secretHash(cookie));
    if (device === null) return null;
    const now = clock.now();
    if (now - device.seenAt >= NOTE_EVERY_MS) await touchDevice(store, device.id, now);
    return device.id;
  }

  #whoBy(session: StoredSession, device: number | null): Who {
    const until = sessionEnds(session.place, session.madeAt, session.seenAt);
    const role = this.roleOf(session.person);
    const past = this.parts.clock.now() >= until;
    // A cookie that was carried to another device opens nothing there.
    if (past || role === null || session.device !== device) return { ...NOBODY, standing: 'device', device };
    // A badge is seen by everybody who stands near: it never opens what is the owner's.
    const standing = session.shown === 'badge' && role === 'owner' ? 'supervisor' : role;
    return { standing, person: session.person, device, by: session.shown, until, session };
  }
}

function higher(one: Who, other: Who): Who {
  return STANDINGS.indexOf(other.standing) > STANDINGS.indexOf(one.standing) ? other : one;
}

/** What programs add to a request that they pass on (RFC 7239, RFC 9110 7.6.3; `X-` ones are common practice, no source). */
const PASSED_ON = /^(forwarded|via|x-forwarded(-.*)?|x-real-ip|x-client-ip|true-client-ip|x-original-.*)$/;

/** Whether a request comes from this computer itself, and is not passed on by a program on it for somebody else. */
export function isHere({ socket, headers }: IncomingMessage): boolean {
  if (Object.keys(headers).some((name) => PASSED_ON.test(name))) return false;
  const address = (socket.remoteAddress ?? '').replace(/^::ffff:/i, '');
  return isIP(address) !== 0 && (address === '::1' || address.startsWith('127.'));
}

/** Whether a host that is listened on can be reached by this computer only. */
export function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || host.startsWith('127.');
}
