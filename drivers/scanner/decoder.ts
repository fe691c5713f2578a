/** What a scanner decoder makes of the bytes. */
export type ScanFrame =
  | { readonly kind: 'scan'; readonly text: string }
  | {
      readonly kind: 'discarded';
      readonly why: 'half-read' | 'too-long' | 'not-text' | 'framing';
      readonly bytes: Uint8Array;
    };

export interface ScanFraming {
  /** text that the scanner was set to put before every code; a scan without it is discarded */
  readonly prefix?: string;
  /** text that it puts after the code, before the line end */
  readonly suffix?: string;
}

export interface ScanDecoder {
  push(chunk: Uint8Array, at: number): readonly ScanFrame[];
  /** Gives up what was begun: the line is gone or went quiet in the middle of a code. */
  giveUp(): readonly ScanFrame[];
}

const STX = 0x02;
const ETX = 0x03;
const LF = 0x0a;
const CR = 0x0d;
/** Stands for FNC1 between GS1 element strings. */
const GS = 0x1d;
/** A GS1 element string has at most 90 characters and an AIM identifier 3; this is ample. */
const LONGEST = 256;
/** A scanner sends a code in one go; a pause this long in the middle means that its end was lost. */
export const SCAN_PAUSE_MS = 300;

/** Decoder for scanners that send text and CR, LF, CR LF, or text between STX and ETX. One for each connection. */
export function scanDecoder(framing: ScanFraming = {}): ScanDecoder {
  const held = new Uint8Array(LONGEST);
  let length = 0;
  let skipping = false;
  let inFrame = false;
  let lastAt = 0;

  function halfRead(): readonly ScanFrame[] {
    const bytes = held.slice(0, length);
    length = 0;
    inFrame = false;
    skipping = false;
    return bytes.length === 0 ? [] : [{ kind: 'discarded', why: 'half-read', bytes }];
  }

  return {
    push(chunk, at) {
      const out: ScanFrame[] = [];
      if (length > 0 && at - lastAt > SCAN_PAUSE_MS) out.push(...halfRead());
      lastAt = at;
      for (const byte of chunk) {
        if (byte === STX) {
          out.push(...halfRead());
          inFrame = true;
        } else if (byte === ETX || byte === CR || byte === LF) {
          // Between STX and ETX only ETX ends a code, but a line end inside means that the ETX was lost.
          if (inFrame && byte !== ETX) out.push(...halfRead());
          else if (length > 0) out.push(readScan(held.slice(0, length), framing));
          length = 0;
          skipping = false;
          inFrame = false;
        } else if (!skipping) {
          if (length === LONGEST) {
            out.push({ kind: 'discarded', why: 'too-long', bytes: held.slice(0, length) });
            length = 0;
            skipping = true;
          } else {
            held[length] = byte;
            length += 1;
          }
        }
      }
      return out;
    },
    giveUp: halfRead,
  };
}

function readScan(bytes: Uint8Array, { prefix = '', suffix = '' }: ScanFraming): ScanFrame {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return { kind: 'discarded', why: 'not-text', bytes };
  }
  if (bytes.some((byte) => (byte < 0x20 && byte !== GS) || byte === 0x7f)) {
    return { kind: 'discarded', why: 'not-text', bytes };
  }
  if (!text.startsWith(prefix) || !text.endsWith(suffix) || text.length <= prefix.length + suffix.length) {
    return { kind: 'discarded', why: 'framing', bytes };
  }
  return { kind: 'scan', text: text.slice(prefix.length, text.length - suffix.length) };
}
