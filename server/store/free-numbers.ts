/** Numbers from 1 on that are not taken, the smallest first: baskets and places of a shelf are few and are used again. */
export function* freeNumbers(taken: readonly (number | null)[]): Generator<number, never> {
  const used = new Set(taken);
  for (let number = 1; ; number++) if (!used.has(number)) yield number;
}
