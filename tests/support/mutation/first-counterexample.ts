import fc from 'fast-check';

/** A mutant is noticed by the first counterexample; looking for a smaller one would only take time. */
fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
