import { randomUUID } from 'node:crypto';
import { createWriteStream, rmSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Transform, type Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { makeFolder } from '#server/make-folder.ts';

/** More bytes came than were allowed. */
export class UploadTooLarge extends Error {
  override readonly name = 'UploadTooLarge';
  readonly status = 413;

  constructor(readonly limit: number) {
    super(`more than ${String(limit)} bytes`);
  }
}

/** What came has no end. */
class BrokenOff extends Error {
  override readonly name = 'BrokenOff';
  readonly status = 400;

  constructor() {
    super('The file broke off.');
  }
}

/** A file that was taken in; whoever has it removes it. */
export interface Upload {
  readonly path: string;
  readonly remove: () => Promise<void>;
}

/**
 * Files that lie in the data folder only while they are worked on. What a stopped server has left there is removed when the
 * next one starts.
 */
export class UploadFolder {
  readonly #folder: string;

  constructor(data: string) {
    this.#folder = join(data, 'uploads');
    rmSync(this.#folder, { recursive: true, force: true });
  }

  /** A place that nothing has yet. */
  newPath(what: string): string {
    makeFolder(this.#folder, 0o700);
    return join(this.#folder, `${randomUUID()}.${what}`);
  }

  /**
   * Writes what comes to the disk as it comes.
   * @param most bytes
   * @param seen told of every piece
   * @throws UploadTooLarge, or what the source throws; nothing is left of it then
   */
  async receive(source: Readable, most: number, seen?: (piece: Uint8Array) => void): Promise<Upload> {
    const path = this.newPath('upload');
    const remove = () => rm(path, { force: true });
    let size = 0;
    const counted = new Transform({
      transform(piece: Buffer, _encoding, done) {
        size += piece.length;
        seen?.(piece);
        if (size > most) done(new UploadTooLarge(most));
        else done(null, piece);
      },
    });
    source.once('error', (error) => counted.destroy(error));
    source.once('close', () => {
      if (!source.readableEnded) counted.destroy(new BrokenOff());
    });
    try {
      await pipeline(source.pipe(counted), createWriteStream(path, { mode: 0o600 }));
      return { path, remove };
    } catch (error) {
      // Whoever still sends is to hear why not: the rest is read and dropped.
      source.unpipe(counted);
      source.resume();
      await remove();
      throw error;
    }
  }
}
