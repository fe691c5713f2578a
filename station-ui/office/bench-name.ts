export interface NamedBench {
  readonly id: string;
  readonly name: string;
}

/** What everybody calls a bench; its id where the shop no longer has it. */
export function benchName(id: string | null, benches: readonly NamedBench[]): string {
  return benches.find((each) => each.id === id)?.name ?? id ?? '';
}
