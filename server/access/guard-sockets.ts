import type { Logger } from 'pino';
import type { Namespace, Server, Socket } from 'socket.io';
import { NAMESPACES, type NamespaceRule } from './event-table.ts';
import type { Who } from './who.ts';
import type { IncomingMessage } from 'node:http';
import type { Clock } from '#server/clock.ts';
import { isEnough, type Least } from '#shared/access/roles.ts';
import type { AccessRefusal } from '#shared/wire/events.ts';

export interface SocketGuardParts {
  readonly whoFor: (request: IncomingMessage) => Promise<Who>;
  readonly clock: Clock;
  readonly log: Logger;
  /** somebody did something at a screen */
  readonly acted: (socket: Socket) => void;
  readonly table?: Readonly<Record<string, NamespaceRule>>;
}

/**
 * Lets sockets connect and send events that may, and no others: the only place where that is decided for sockets. Must be
 * called before any namespace is made, so that none is left out.
 */
export function guardSockets(io: Server, parts: SocketGuardParts): void {
  guardNamespace(io.of('/'), parts);
  io.on('new_namespace', (namespace: Namespace) => guardNamespace(namespace, parts));
}

/** Events that come of somebody's hands, and not of a device or of a page by itself. */
const HANDS: ReadonlySet<string> = new Set(['input', 'speech', 'simulate']);

function guardNamespace(
  namespace: Namespace,
  { whoFor, clock, log, acted, table = NAMESPACES }: SocketGuardParts,
): void {
  const rule = Object.hasOwn(table, namespace.name) ? table[namespace.name] : undefined;
  namespace.use((socket, next) => {
    if (rule === undefined) {
      next(new Error('not-allowed'));
      return;
    }
    whoFor(socket.request).then(
      (who) => {
        setWho(socket, who);
        const why = refusal(who, rule.connect, clock.now());
        next(why === null ? undefined : new Error(why));
      },
      (error: unknown) => {
        log.error({ error }, 'it could not be told who connects');
        next(new Error('store-failed'));
      },
    );
    // An event in the same moment as the next must stay before it: nothing is waited for here.
    socket.use(([event, ...given]: unknown[], next) => {
      const least = Object.hasOwn(rule.events, String(event)) ? rule.events[String(event)] : undefined;
      const why = least === undefined ? 'not-allowed' : refusal(whoOfSocket(socket), least, clock.now());
      if (why === null) {
        if (HANDS.has(String(event))) acted(socket);
        next();
        return;
      }
      const ack = given.at(-1);
      if (typeof ack === 'function') {
        (ack as (answer: object) => void)({ ok: false, error: why, message: MESSAGES[why] });
      }
    });
  });
}

const MESSAGES: Readonly<Record<AccessRefusal, string>> = {
  'not-paired': 'This device is not paired with the shop.',
  'signed-out': 'Nobody is signed in here.',
  'not-allowed': 'Whoever is signed in here may not do this.',
};

function refusal(who: Who, least: Least, now: number): AccessRefusal | null {
  const over = who.until !== null && now >= who.until;
  if (isEnough(over ? 'device' : who.standing, least)) return null;
  if (who.standing === 'nobody') return 'not-paired';
  return over || who.standing === 'device' ? 'signed-out' : 'not-allowed';
}

interface GuardedData {
  who?: Who;
}

/** As whom a socket comes that has passed the guard. */
export function whoOfSocket(socket: Pick<Socket, 'data'>): Who {
  const { who } = socket.data as GuardedData;
  if (who === undefined) throw new Error('a socket that has not passed the guard');
  return who;
}

/** Somebody else, or nobody, stands at this socket from now on. */
export function setWho(socket: Pick<Socket, 'data'>, who: Who): void {
  (socket.data as GuardedData).who = who;
}
