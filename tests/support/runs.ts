/**
 * How many random cases a property is tried with: as many as asked, but few while mutants are tried, which each run every
 * test that reaches them.
 */
export function runs(count: number): number {
  return process.env['FEW_RUNS'] === undefined ? count : Math.min(count, 60);
}
