import type { Clock } from '#drivers/clock.ts';
import type { PrinterFrame } from '#drivers/printer/status.ts';
import type { ScaleFrame } from '#drivers/scale/frames.ts';
import type { ScanFrame } from '#drivers/scanner/decoder.ts';
import { hexOf, textOf } from '#drivers/trace.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { FrameLine } from '#shared/wire/devices.ts';

const KEPT = 12;
/** A scale repeats itself ten times a second; the same frame again is counted, not listed. */
type Unstamped = Omit<FrameLine, 'at' | 'times'>;

/** What a device sent last, frame by frame, newest first. */
export class FrameLog {
  readonly #clock: Clock;
  #lines: readonly FrameLine[] = [];

  constructor(clock: Clock) {
    this.#clock = clock;
  }

  lines(): readonly FrameLine[] {
    return this.#lines;
  }

  scale(frame: ScaleFrame): void {
    this.#add(scaleLine(frame));
  }

  scanner(frame: ScanFrame): void {
    if (frame.kind === 'scan') this.#add({ kind: 'scan', shown: plain(frame.text), why: '' });
    else this.#add({ kind: 'discarded', shown: `${textOf(frame.bytes)}  ${hexOf(frame.bytes)}`, why: frame.why });
  }

  printer(frame: PrinterFrame): void {
    if (frame.kind === 'status') this.#add({ kind: 'status', shown: hexOf(Uint8Array.of(frame.byte)), why: '' });
    else if (frame.kind === 'acknowledge') {
      this.#add({ kind: 'acknowledge', shown: '', why: frame.paperOut ? 'paper-out' : '' });
    } else this.#add({ kind: 'discarded', shown: hexOf(Uint8Array.of(frame.byte)), why: 'form' });
  }

  #add(line: Unstamped): void {
    const at = this.#clock.now();
    const [newest, ...older] = this.#lines;
    if (newest !== undefined && same(newest, line)) {
      this.#lines = [{ ...newest, at, times: newest.times + 1 }, ...older];
    } else {
      this.#lines = [{ ...line, at, times: 1 }, ...this.#lines].slice(0, KEPT);
    }
  }
}

function same(a: Unstamped, b: Unstamped): boolean {
  return a.kind === b.kind && a.shown === b.shown && a.why === b.why;
}

function scaleLine(frame: ScaleFrame): Unstamped {
  switch (frame.kind) {
    case 'weight': {
      const shown = formatMass(frame.mass, frame.unit, frame.places);
      return { kind: 'weight', shown, why: frame.stability === 'unknown' ? '' : frame.stability };
    }
    case 'no-weight':
      return { kind: 'no-weight', shown: plain(frame.says), why: frame.condition };
    case 'tare':
      return { kind: 'tare', shown: formatMass(frame.mass, frame.unit, frame.places), why: '' };
    case 'refused':
      return { kind: 'refused', shown: '', why: frame.why };
    case 'text':
      return { kind: 'text', shown: plain(frame.text), why: '' };
    case 'diagnostics':
      return { kind: 'text', shown: frame.faults.join(' '), why: '' };
    case 'discarded':
      return { kind: 'discarded', shown: `${textOf(frame.bytes)}  ${hexOf(frame.bytes)}`, why: frame.why };
  }
}

function plain(text: string): string {
  return text.replace(/\p{Cc}/gu, '·');
}
