import type { Logger } from 'pino';
import type { Server, Socket } from 'socket.io';
import type { Access } from './access.ts';
import type { Entry } from './entry.ts';
import { NAMESPACES } from './event-table.ts';
import { setWho, whoOfSocket } from './guard-sockets.ts';
import { StrangeTexts } from './strange-texts.ts';
import type { Who } from './who.ts';
import { isEnough } from '#shared/access/roles.ts';

const LOOK_EVERY_MS = 3000;

/** What is done when somebody signs in at a screen, and when nobody is signed in any more. */
export interface DoorListener {
  opened(): void;
  shut(): void;
}

interface Followed extends DoorListener {
  readonly bench: string;
  open: boolean;
}

/** What a bench asks before it acts on its own scanner or microphone. */
export interface BenchDoor {
  /** somebody is signed in at a screen of this bench, or the shop is not locked */
  isOpen(bench: string): boolean;
  acted(bench: string): void;
  /** somebody's badge was scanned at this bench */
  badge(bench: string, person: string): Promise<void>;
  /** a text was read at this bench that the shop does not know */
  strange(bench: string, text: string): void;
  /** false while so many strange texts were read at this bench that somebody may be guessing badges */
  takesBadges(bench: string): boolean;
}

/** The doors of all screens: open where somebody is signed in, and looked at anew whenever that may have changed. */
export class Doors implements BenchDoor {
  readonly #access: Access;
  readonly #log: Logger;
  readonly #followed = new Map<Socket, Followed>();
  readonly #strange = new Map<string, StrangeTexts>();
  #io: Server | null = null;
  #entry: Entry | null = null;
  #locked = false;
  #timer: NodeJS.Timeout | null = null;
  #looking: Promise<void> = Promise.resolve();

  constructor(access: Access, log: Logger) {
    this.#access = access;
    this.#log = log;
  }

  async start(io: Server, entry: Entry): Promise<void> {
    this.#io = io;
    this.#entry = entry;
    this.#locked = await this.#access.locked();
    this.#timer = setInterval(() => void this.lookAgain(), LOOK_EVERY_MS);
    this.#timer.unref();
  }

  async stop(): Promise<void> {
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#io = null;
    await this.#looking;
  }

  /** Follows the door of a bench's screen; the listener is called at once. */
  follow(socket: Socket, bench: string, listener: DoorListener): void {
    const followed: Followed = { ...listener, bench, open: isEnough(whoOfSocket(socket).standing, 'packer') };
    this.#followed.set(socket, followed);
    socket.on('disconnect', () => this.#followed.delete(socket));
    if (followed.open) followed.opened();
    else followed.shut();
  }

  /** Everybody must sign in. */
  get locked(): boolean {
    return this.#locked;
  }

  isOpen(bench: string): boolean {
    return !this.#locked || this.#at(bench).some(([, { open }]) => open);
  }

  acted(bench: string): void {
    for (const [socket, { open }] of this.#at(bench)) if (open) void this.socketActed(socket);
  }

  async badge(bench: string, person: string): Promise<void> {
    if (!this.#locked || this.#entry === null || !this.takesBadges(bench)) return;
    for (const [socket] of this.#at(bench)) {
      const { device, session, standing } = whoOfSocket(socket);
      const another = standing === 'device' || (session?.place === 'bench' && session.person !== person);
      if (device !== null && another) await this.#entry.enterBench(person, device, 'badge');
    }
  }

  strange(bench: string, text: string): void {
    if (!this.#locked) return;
    const texts = this.#strange.get(bench) ?? new StrangeTexts();
    this.#strange.set(bench, texts);
    if (!texts.saw(text, performance.now())) return;
    this.#log.warn({ bench }, 'so many strange texts were read that badges are not taken for a while');
    this.#entry
      ?.badgesGuessed(bench)
      .catch((error: unknown) => this.#log.error({ error }, 'guessed badges could not be recorded'));
  }

  takesBadges(bench: string): boolean {
    return !this.#locked || this.#strange.get(bench)?.tooMany(performance.now()) !== true;
  }

  /** Somebody did something at a screen: the session goes on. */
  async socketActed(socket: Socket): Promise<void> {
    try {
      setWho(socket, await this.#access.acted(whoOfSocket(socket)));
    } catch (error) {
      this.#log.error({ error }, 'a session could not be kept open');
    }
  }

  /** Looks at every connected screen anew: a PIN, a session or a device may be another by now. */
  lookAgain(): Promise<void> {
    this.#looking = this.#looking
      .then(() => this.#look())
      .catch((error: unknown) => this.#log.error({ error }, 'it could not be told who is signed in where'));
    return this.#looking;
  }

  async #look(): Promise<void> {
    const was = this.#locked;
    this.#locked = await this.#access.locked();
    if (!was && !this.#locked) return;
    for (const [name, { connect }] of Object.entries(NAMESPACES)) {
      for (const socket of this.#io?.of(name).sockets.values() ?? []) {
        const who = await this.#access.whoFor(socket.request);
        setWho(socket, who);
        if (isEnough(who.standing, connect)) this.#turn(socket, who);
        else socket.disconnect(true);
      }
    }
  }

  #turn(socket: Socket, { standing }: Who): void {
    const followed = this.#followed.get(socket);
    const open = isEnough(standing, 'packer');
    if (followed === undefined || followed.open === open) return;
    followed.open = open;
    if (open) followed.opened();
    else followed.shut();
  }

  #at(bench: string): readonly (readonly [Socket, Followed])[] {
    return [...this.#followed].filter(([, followed]) => followed.bench === bench);
  }
}
