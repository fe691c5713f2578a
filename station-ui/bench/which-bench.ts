/** The bench that this page is for: `/bench/ID` or `?bench=ID`; null where the address names none. */
export function benchOfAddress(address: URL): string | null {
  const asked = address.searchParams.get('bench');
  if (asked !== null && asked !== '') return asked;
  const match = /\/bench\/([^/]+)\/?$/.exec(address.pathname);
  return match?.[1] === undefined ? null : decodeURIComponent(match[1]);
}
