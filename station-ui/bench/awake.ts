/** Why the screen may go dark although the shop wants it awake. */
export type AwakeTrouble = 'not-offered' | 'refused';

/** What is used here of a lock (W3C Screen Wake Lock). */
export interface Lock {
  readonly release: () => Promise<void>;
  readonly addEventListener: (type: 'release', listener: () => void) => void;
}

export interface AwakeParts {
  /** null where the browser offers no lock: it does so on localhost and HTTPS only */
  readonly request: (() => Promise<Lock>) | null;
  readonly hidden: () => boolean;
  readonly changed: (trouble: AwakeTrouble | null) => void;
}

/** Keeps the screen from going dark. The browser lets go of it whenever the page is hidden; it is asked for again when seen. */
export class Awake {
  private wanted = false;
  private lock: Lock | null = null;
  private asking = false;

  constructor(private readonly parts: AwakeParts) {}

  /** Whether the shop wants the screen awake. */
  want(wanted: boolean): void {
    if (wanted === this.wanted) return;
    this.wanted = wanted;
    if (wanted) void this.ask();
    else this.letGo();
  }

  /** The page is hidden or seen again. */
  hiddenOrSeen(): void {
    void this.ask();
  }

  letGo(): void {
    this.wanted = false;
    const { lock } = this;
    this.lock = null;
    this.parts.changed(null);
    void lock?.release().catch(() => undefined);
  }

  private async ask(): Promise<void> {
    const { request, hidden, changed } = this.parts;
    if (!this.wanted || this.lock !== null || this.asking || hidden()) return;
    if (request === null) {
      changed('not-offered');
      return;
    }
    this.asking = true;
    try {
      const lock = await request();
      this.hold(lock);
    } catch {
      // Refused while it is hidden it is asked for again when seen: that is no trouble.
      if (!hidden()) changed('refused');
    } finally {
      this.asking = false;
    }
  }

  private hold(lock: Lock): void {
    // The shop may have thought otherwise while the browser did.
    if (!this.isWanted()) {
      void lock.release().catch(() => undefined);
      return;
    }
    this.lock = lock;
    this.parts.changed(null);
    lock.addEventListener('release', () => {
      if (this.lock !== lock) return;
      this.lock = null;
      // Taken away before the packer's eyes, as with a low battery: asked for once more, and told when refused.
      void this.ask();
    });
  }

  private isWanted(): boolean {
    return this.wanted;
  }
}
