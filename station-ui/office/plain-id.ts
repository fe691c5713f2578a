/** A name as an id: lower-case letters of the Latin alphabet, digits and hyphens; empty where it has none of them. */
export function plainId(name: string): string {
  const letters = name.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return letters.replaceAll(/[^a-z0-9]+/g, '-').replaceAll(/^-+|-+$/g, '');
}
