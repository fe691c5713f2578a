/**
 * How many random cases a property is tried with: as many as asked, but few while mutants are tried, which each run every
 * test that reaches them; FEW_RUNS=20 says how few.
 */
export function runs(count: number): number {
  const few = Number(process.env['FEW_RUNS'] ?? count);
  return Math.min(count, few === 1 ? 60 : few);
}
