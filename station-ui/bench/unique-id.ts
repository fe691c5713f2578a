/** A new id for an input. `crypto.randomUUID` exists only on secure pages; a tablet on plain HTTP takes the other way. */
export function uniqueId(source: Partial<Pick<Crypto, 'randomUUID' | 'getRandomValues'>> = crypto): string {
  if (source.randomUUID !== undefined) return source.randomUUID();
  const bytes = new Uint8Array(16);
  if (source.getRandomValues === undefined) bytes.forEach((_, index) => (bytes[index] = Math.random() * 256));
  else source.getRandomValues(bytes);
  // Version 4, variant 10 (RFC 9562, 5.4).
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
