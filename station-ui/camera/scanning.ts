import { NOTHING_SEEN, forgotten, nextPicture } from '#shared/codes/agreement.ts';
import type { AgreementState } from '#shared/codes/agreement.ts';
import { sameThing } from '#shared/codes/camera-reads.ts';
import type { CodeRead } from '#shared/codes/camera-reads.ts';
import type { CodeAnswer } from '#shared/wire/events.ts';
import { openCamera } from './camera.ts';
import type { Camera } from './camera.ts';
import { CameraError } from './camera-trouble.ts';
import type { CameraTrouble } from './camera-trouble.ts';
import { workerDecoder } from './worker-decoder.ts';
import type { WorkerDecoder } from './worker-decoder.ts';

/** What came of the code that was read last. */
export interface CameraSeen {
  readonly text: string;
  readonly outcome: 'taken' | 'not-known' | 'not-asked';
}

export interface ScanningState {
  /** the packer wants the camera */
  readonly on: boolean;
  readonly phase: 'off' | 'starting' | 'looking';
  readonly trouble: CameraTrouble | null;
  /** what the preview shows */
  readonly stream: MediaStream | null;
  readonly light: 'none' | 'off' | 'on';
  /** false where codes that are held askew are not read */
  readonly turned: boolean;
  readonly seen: CameraSeen | null;
  readonly counts: { readonly taken: number; readonly notKnown: number; readonly unconfirmed: number };
}

export const NOT_SCANNING: ScanningState = {
  on: false,
  phase: 'off',
  trouble: null,
  stream: null,
  light: 'none',
  turned: true,
  seen: null,
  counts: { taken: 0, notKnown: 0, unconfirmed: 0 },
};

export interface ScanningParts {
  readonly open?: typeof openCamera;
  readonly decoder?: typeof workerDecoder;
  /** the next picture of the preview; null while there is none */
  readonly picture: () => ImageData | null;
  /** null when the server cannot be asked */
  readonly ask: (text: string) => Promise<CodeAnswer | null>;
  readonly take: (text: string) => void;
  readonly changed: (state: ScanningState) => void;
}

/** At most this often is a picture looked at: a hand does not move faster, and the tablet stays cool. */
const EVERY_MS = 80;
const TOLD_MS = 3000;

/** This tablet's camera as a scanner: off until it is switched on, and the reason when it cannot be. */
export class Scanning {
  private state: ScanningState = NOT_SCANNING;
  private camera: Camera | null = null;
  private decoder: WorkerDecoder | null = null;
  private agreement: AgreementState = NOTHING_SEEN;
  /** read and agreed on, but nothing came of it */
  private leftAlone: readonly CodeRead[] = [];
  private lastRead: CodeRead | null = null;
  private tellUntil = 0;
  private opening = 0;

  constructor(private readonly parts: ScanningParts) {}

  async turn(on: boolean): Promise<void> {
    const turn = ++this.opening;
    this.close();
    if (!on) {
      this.set({ ...NOT_SCANNING, counts: this.state.counts });
      return;
    }
    this.set({ ...NOT_SCANNING, on: true, phase: 'starting', counts: this.state.counts });
    try {
      const camera = await (this.parts.open ?? openCamera)(() => this.fail('unplugged'));
      if (turn !== this.opening) {
        camera.close();
        return;
      }
      this.camera = camera;
      this.set({ stream: camera.stream, light: camera.torch === null ? 'none' : 'off' });
      const decoder = await (this.parts.decoder ?? workerDecoder)();
      if (turn !== this.opening) {
        decoder.close();
        return;
      }
      this.decoder = decoder;
      this.agreement = { ...NOTHING_SEEN, unconfirmed: this.state.counts.unconfirmed };
      this.leftAlone = [];
      this.set({ phase: 'looking', turned: decoder.turned });
      await this.look(turn, decoder);
    } catch (error) {
      if (turn === this.opening) this.fail(error instanceof CameraError ? error.code : 'in-use');
    }
  }

  /** Nobody sees the page: the camera rests, and goes on when it is seen again. */
  rest(hidden: boolean): void {
    if (!this.state.on || this.state.trouble !== null) return;
    if (!hidden) void this.turn(true);
    else {
      this.opening += 1;
      this.close();
      this.set({ phase: 'off', stream: null, light: 'none' });
    }
  }

  /** The run has moved on: a code that meant nothing before may mean something now. */
  moved(): void {
    this.agreement = forgotten(this.agreement, this.leftAlone);
    this.leftAlone = [];
  }

  async switchLight(): Promise<void> {
    const on = this.state.light !== 'on';
    try {
      await this.camera?.torch?.(on);
      this.set({ light: on ? 'on' : 'off' });
    } catch {
      // A camera may promise a light and then have none.
      this.set({ light: 'none' });
    }
  }

  private async look(turn: number, decoder: WorkerDecoder): Promise<void> {
    while (turn === this.opening) {
      const from = performance.now();
      const picture = this.parts.picture();
      const reads = picture === null ? null : await decoder.decode(picture);
      if (turn !== this.opening) return;
      const at = performance.now();
      if (reads !== null) this.read(reads, at);
      await new Promise((soon) => setTimeout(soon, Math.max(0, EVERY_MS - (at - from))));
    }
  }

  private read(reads: readonly CodeRead[], at: number): void {
    const step = nextPicture(this.agreement, reads, at);
    this.agreement = step.state;
    const { unconfirmed } = step.state;
    if (unconfirmed !== this.state.counts.unconfirmed) this.set({ counts: { ...this.state.counts, unconfirmed } });
    this.forgetSeen(at);
    for (const read of step.agreed) void this.askAbout(read);
  }

  /** What was read is told as long as it is in sight, and a little longer. */
  private forgetSeen(at: number): void {
    if (this.lastRead === null || this.state.seen === null) return;
    if (this.agreement.acted.has(sameThing(this.lastRead))) this.tellUntil = at + TOLD_MS;
    else if (at > this.tellUntil) this.set({ seen: null });
  }

  /** A code counts only if the open work knows it. */
  private async askAbout(read: CodeRead): Promise<void> {
    const { text } = read;
    const answer = await this.parts.ask(text);
    if (!this.state.on) return;
    this.lastRead = read;
    this.tellUntil = performance.now() + TOLD_MS;
    const { counts, seen: before } = this.state;
    if (answer === null || (!answer.ok && answer.error !== 'bad-request')) {
      // Asked again as soon as it is agreed on anew.
      this.agreement = forgotten(this.agreement, [read]);
      this.set({ seen: { text, outcome: 'not-asked' } });
    } else if (answer.ok && answer.known) {
      this.parts.take(text);
      this.set({ seen: { text, outcome: 'taken' }, counts: { ...counts, taken: counts.taken + 1 } });
    } else {
      this.leftAlone = [...this.leftAlone, read];
      // Asked about anew at each step, a code that lies in sight is still one.
      const another = before?.outcome !== 'not-known' || before.text !== text;
      const notKnown = counts.notKnown + (another ? 1 : 0);
      this.set({ seen: { text, outcome: 'not-known' }, counts: { ...counts, notKnown } });
    }
  }

  private fail(trouble: CameraTrouble): void {
    this.opening += 1;
    this.close();
    this.set({ ...NOT_SCANNING, trouble, counts: this.state.counts });
  }

  private close(): void {
    this.camera?.close();
    this.decoder?.close();
    this.camera = null;
    this.decoder = null;
  }

  private set(change: Partial<ScanningState>): void {
    this.state = { ...this.state, ...change };
    this.parts.changed(this.state);
  }
}
