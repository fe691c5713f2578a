/** A digest in pairs of hexadecimal digits as two rows of equal length, to be compared by eye: the same wherever it is shown. */
export function fingerprintRows(fingerprint: string): readonly [string, string] {
  const pairs = fingerprint.split(':');
  const half = Math.ceil(pairs.length / 2);
  return [`${pairs.slice(0, half).join(':')}:`, pairs.slice(half).join(':')];
}
