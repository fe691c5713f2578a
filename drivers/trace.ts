import type { Clock } from './clock.ts';

const KEPT_BYTES = 256;

/** What a device sent last and how much, for the page where somebody looks why it does not work. */
export interface DeviceTrace {
  /** the newest bytes, oldest first, at most 256 */
  readonly lastBytes: Uint8Array;
  /** when they came; null before the first */
  readonly lastAt: number | null;
  readonly bytes: number;
  readonly good: number;
  readonly discarded: number;
  /** connections that came up since the start */
  readonly connections: number;
  /** what the system said when the link was lost or could not be made last; null before the first time */
  readonly failure: string | null;
}

export interface TraceKeeper {
  now(): DeviceTrace;
  connected(): void;
  failed(message: string): void;
  heard(chunk: Uint8Array): void;
  counted(good: boolean): void;
}

export function keepTrace(clock: Clock): TraceKeeper {
  let lastBytes = new Uint8Array();
  let lastAt: number | null = null;
  let bytes = 0;
  let good = 0;
  let discarded = 0;
  let connections = 0;
  let failure: string | null = null;
  return {
    now: () => ({ lastBytes, lastAt, bytes, good, discarded, connections, failure }),
    connected() {
      connections += 1;
    },
    failed(message) {
      failure = message;
    },
    heard(chunk) {
      bytes += chunk.length;
      lastAt = clock.now();
      const joined = new Uint8Array(Math.min(KEPT_BYTES, lastBytes.length + chunk.length));
      const fromNew = Math.min(chunk.length, joined.length);
      const fromOld = joined.length - fromNew;
      joined.set(lastBytes.subarray(lastBytes.length - fromOld), 0);
      joined.set(chunk.subarray(chunk.length - fromNew), fromOld);
      lastBytes = joined;
    },
    counted(isGood) {
      if (isGood) good += 1;
      else discarded += 1;
    },
  };
}

/** "53 54 2C": for people. */
export function hexOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');
}

/** The printable characters as they are, everything else as a middle dot. */
export function textOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => (byte >= 0x20 && byte <= 0x7e ? String.fromCharCode(byte) : '·')).join('');
}
