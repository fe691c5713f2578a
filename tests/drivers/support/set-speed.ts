import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

/** The speed that whoever opened this serial line has set; pseudo-terminals carry bytes at any speed, but remember it. */
export async function setSpeed(path: string): Promise<number> {
  try {
    const { stdout } = await promisify(execFile)('stty', ['-F', path, 'speed']);
    return Number(stdout.trim());
  } catch {
    return 0;
  }
}
