/** A stretch of bytes between delimiters, or a stretch that had to be given up. */
export type RawFrame =
  | { readonly kind: 'frame'; readonly bytes: Uint8Array; /** its beginning was seen */ readonly whole: boolean }
  | { readonly kind: 'too-long'; readonly bytes: Uint8Array };

export interface FrameEnds {
  /** bytes that begin a frame and throw away what came before */
  readonly starts: readonly number[];
  /** bytes that end a frame; what follows begins the next */
  readonly ends: readonly number[];
  /** longest frame in bytes; memory never exceeds it */
  readonly longest: number;
}

/** Cuts a byte stream at its delimiters, in bounded memory. Empty frames are left out. */
export function boundedFrames({ starts, ends, longest }: FrameEnds): (chunk: Uint8Array) => readonly RawFrame[] {
  const held = new Uint8Array(longest);
  let length = 0;
  let whole = false;
  let skipping = false;

  return (chunk) => {
    const out: RawFrame[] = [];
    const give = (kind: 'frame' | 'cut'): void => {
      if (length > 0) out.push({ kind: 'frame', bytes: held.slice(0, length), whole: whole && kind === 'frame' });
      length = 0;
    };
    for (const byte of chunk) {
      if (starts.includes(byte)) {
        give('cut');
        whole = true;
        skipping = false;
      } else if (ends.includes(byte)) {
        give('frame');
        whole = true;
        skipping = false;
      } else if (!skipping) {
        if (length === longest) {
          out.push({ kind: 'too-long', bytes: held.slice(0, length) });
          length = 0;
          skipping = true;
        } else {
          held[length] = byte;
          length += 1;
        }
      }
    }
    return out;
  };
}
