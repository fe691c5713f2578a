/**
 * Whether a path leads to what the shop holds, and not to a page or one of its files. Routes are matched whatever the case of
 * their letters unless a router is told otherwise, so this must not depend on it.
 */
export function isDataPath(path: string): boolean {
  return /^\/+(api|metrics)/i.test(path);
}
