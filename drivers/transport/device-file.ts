import { constants } from 'node:fs';
import { open, type FileHandle } from 'node:fs/promises';
import type { Closed, Connection, LinkEvents, TransportFactory } from './transport.ts';

/** How often a device that had nothing to say, or no room, is asked again. */
const AGAIN_AFTER_MS = 10;
const READ_BYTES = 4096;
/** A device with nothing to say is busy; one that reads as empty this many times in a row has hung up. */
const EMPTY_READS = 25;

/**
 * Connections to a character device that needs no line settings. What one read returns stays one chunk, so a raw HID
 * device gives one report at a time.
 */
export function deviceFileTransport(path: string): TransportFactory {
  return { name: path, connect: (events) => connectFile(path, events) };
}

function connectFile(path: string, events: LinkEvents): Connection {
  let file: FileHandle | null = null;
  let closedHere = false;
  let waiting: Uint8Array[] = [];
  let writing = false;
  let failure: string | null = null;
  const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, AGAIN_AFTER_MS));
  const over = (): boolean => closedHere || failure !== null;

  async function run(): Promise<Closed> {
    try {
      // Never O_CREAT: a missing device must not become a regular file that takes every slip. Non-blocking, because a
      // read that waits for ever could not be ended.
      file = await open(path, constants.O_RDWR | constants.O_NONBLOCK | constants.O_NOCTTY);
      const isDevice = (await file.stat()).isCharacterDevice();
      if (!isDevice) return { cause: 'cannot-open', message: `${path} is no character device` };
    } catch (error) {
      return { cause: 'cannot-open', message: messageOf(error) };
    }
    if (over()) return { cause: 'closed-here', message: 'closed' };
    events.opened();
    await readOn(file);
    return closedHere
      ? { cause: 'closed-here', message: 'closed' }
      : { cause: 'link-lost', message: failure ?? 'the device went away' };
  }

  async function readOn(from: FileHandle): Promise<void> {
    const buffer = new Uint8Array(READ_BYTES);
    let emptyReads = 0;
    while (!over()) {
      try {
        const { bytesRead } = await from.read(buffer, 0, READ_BYTES, null);
        if (over()) return;
        if (bytesRead > 0) {
          emptyReads = 0;
          events.bytes(buffer.slice(0, bytesRead));
          continue;
        }
        emptyReads += 1;
        if (emptyReads >= EMPTY_READS) return;
        await pause();
      } catch (error) {
        if (!isBusy(error)) {
          failure = messageOf(error);
          return;
        }
        emptyReads = 0;
        await pause();
      }
    }
  }

  async function writeOn(to: FileHandle): Promise<void> {
    writing = true;
    while (!over()) {
      const [next, ...later] = waiting;
      if (next === undefined) break;
      try {
        const { bytesWritten } = await to.write(next);
        waiting = bytesWritten < next.length ? [next.subarray(bytesWritten), ...later] : waiting.slice(1);
      } catch (error) {
        if (!isBusy(error)) failure = messageOf(error);
        else await pause();
      }
    }
    writing = false;
  }

  const finished = run().then(async (how) => {
    closedHere = true;
    waiting = [];
    await file?.close().catch(() => undefined);
    file = null;
    events.closed(how);
  });

  return {
    write(bytes) {
      if (file === null || over()) return 'refused';
      waiting.push(bytes.slice());
      if (!writing) void writeOn(file);
      return 'sent';
    },
    async close() {
      closedHere = true;
      await finished;
    },
  };
}

function isBusy(error: unknown): boolean {
  return error instanceof Error && 'code' in error && (error.code === 'EAGAIN' || error.code === 'EINTR');
}
function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
