/** Numbers are compared without the blanks and strokes that they are printed with. */
export function plainNumber(number: string): string {
  return number.toUpperCase().replace(/[^0-9A-Z]/g, '');
}

export function isSameNumber(one: string, other: string): boolean {
  return plainNumber(one) === plainNumber(other);
}
