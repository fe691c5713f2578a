const WHY: Readonly<Record<string, string>> = {
  EACCES: 'this user may not read or write there',
  EPERM: 'this user may not read or write there',
  ENOENT: 'expected something there, found nothing',
  EEXIST: 'expected nothing there, found something',
  EISDIR: 'expected a file, found a folder',
  ENOTDIR: 'expected a folder, found a file',
  ENOSPC: 'the disk is full',
  EDQUOT: 'this user may write no more to the disk',
  EROFS: 'the disk can only be read',
};

const WHY_NO_FOLDER: Readonly<Record<string, string>> = {
  ...WHY,
  ENOENT: 'the system lets no folder be made there',
  EEXIST: 'expected a folder, found a file',
};

/** One line with the place and what is wrong there, for what the system refused about a file; null for any other error. */
export function systemErrorLine(error: unknown): string | null {
  if (!(error instanceof Error && 'code' in error && 'syscall' in error)) return null;
  const path = 'path' in error && typeof error.path === 'string' ? error.path : null;
  const why = (error.syscall === 'mkdir' ? WHY_NO_FOLDER : WHY)[String(error.code)];
  if (path === null) return why === undefined || error.syscall === 'listen' ? null : `${why} (${error.message})`;
  return `${path}: ${why ?? error.message}`;
}
