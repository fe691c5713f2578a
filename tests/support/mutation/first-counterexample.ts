import fc from 'fast-check';

/**
 * A mutant is noticed by the first counterexample; looking for a smaller one would only take time. FEW_RUNS=20 tries each
 * property with so many cases where it does not say itself with how many.
 */
const few = Number(process.env['FEW_RUNS'] ?? 1);
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true, ...(few > 1 ? { numRuns: few } : {}) });
