import { statSync } from 'node:fs';
import { join } from 'node:path';

/** What holds the shop's orders and keys, below the data folder; the folder itself guards all that is in it. */
const GUARDED = ['.', 'certificates/authority.key', 'certificates/server.key'] as const;

/** One line where others on this computer can read what is the shop's alone; none where they cannot. */
export function loosePermissions(data: string): readonly string[] {
  // Windows keeps its permissions elsewhere.
  if (process.platform === 'win32') return [];
  const modeOf = (path: string) => {
    const mode = statSync(path, { throwIfNoEntry: false })?.mode;
    return mode === undefined ? 0 : mode & 0o077;
  };
  if (modeOf(data) === 0) return [];
  const loose = GUARDED.map((each) => join(data, each)).filter((path) => modeOf(path) !== 0);
  return [
    `Careful: others on this computer can read the shop's data (${loose.join(', ')}). To stop that: chmod -R go-rwx ${data}`,
  ];
}
