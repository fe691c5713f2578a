import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { performance } from 'node:perf_hooks';
import { bundled } from './test-file.mjs';
import { runTest, testsOf } from './tests-of.mjs';

/**
 * The tests that mutants of the core are run against: its own and those of the published values; no build, no browser.
 * MUTATION_TESTS=rating,units keeps to those of these folders (or of a file, by its name) and of the published values, which
 * is many times faster where everything else is built on what is mutated; no other test makes up for what they miss.
 */
const OWN = process.env.MUTATION_TESTS?.split(',').map((name) => join('tests/shared', name)) ?? ['tests/shared'];
const TESTS = [...OWN, 'tests/standards'];
const SETUPS = ['tests/support/seed.ts', 'tests/support/mutation/first-counterexample.ts'];

const [SUCCESS, FAILED] = [0, 1];

function testFiles() {
  return TESTS.flatMap((path) =>
    path.endsWith('.ts')
      ? [path]
      : readdirSync(path, { recursive: true })
          .filter((name) => name.endsWith('.test.ts'))
          .map((name) => join(path, name)),
  );
}

/**
 * Runs the core's tests against mutants in one process: they are pure, so that loading them anew for each mutant is enough,
 * and takes milliseconds where a worker of the test library takes a second or two.
 */
class CoreTestRunner {
  #spent = new Map();

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    process.env.FEW_RUNS ??= '1';
    this.library = await import('vitest');
    this.files = await bundled(testFiles(), SETUPS);
  }

  /** What instrumented code and its runner tell each other. */
  get #mutants() {
    return (globalThis.__stryker__ ??= {});
  }

  async dryRun({ files }) {
    const mutants = this.#mutants;
    mutants.activeMutant = undefined;
    const mutated = files.map((file) => relative(process.cwd(), file));
    const results = [];
    for (const bundle of this.files) {
      if (!mutated.some((file) => bundle.inputs.has(file))) continue;
      mutants.currentTestId = undefined;
      const begun = performance.now();
      const tests = testsOf(bundle, this.library);
      this.#spent.set(bundle.file, performance.now() - begun);
      for (const test of tests) {
        mutants.currentTestId = test.id;
        const result = await outcomeOf(test, bundle.file);
        this.#spent.set(test.id, result.timeSpentMs);
        results.push(result);
      }
    }
    mutants.currentTestId = undefined;
    return { status: 'complete', tests: results, mutantCoverage: mutants.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation }) {
    const mutants = this.#mutants;
    mutants.hitLimit = hitLimit;
    mutants.hitCount = 0;
    const failure = await this.#firstFailure(new Set(testFilter), activeMutant.id, mutantActivation === 'static');
    mutants.activeMutant = undefined;
    if (mutants.hitCount > hitLimit) return { status: 'timeout', reason: 'it went round for ever' };
    const nrOfTests = testFilter.length;
    if (failure === undefined) return { status: 'survived', nrOfTests };
    return { status: 'killed', killedBy: [failure.id], failureMessage: failure.failureMessage, nrOfTests };
  }

  /** The quick files and tests first: most mutants are noticed by one of them, and then the rest is not even loaded. */
  async #firstFailure(wanted, mutant, fromTheStart) {
    const spent = (id) => this.#spent.get(id) ?? 0;
    const quickest = new Map();
    for (const id of wanted) {
      const file = id.slice(0, id.indexOf('#'));
      quickest.set(file, (quickest.get(file) ?? spent(file)) + spent(id));
    }
    const files = this.files.filter(({ file }) => quickest.has(file));
    files.sort((one, other) => quickest.get(one.file) - quickest.get(other.file));
    for (const bundle of files) {
      this.#mutants.activeMutant = fromTheStart ? mutant : undefined;
      let tests;
      try {
        tests = testsOf(bundle, this.library).filter(({ id }) => wanted.has(id));
      } catch (error) {
        return { id: `${bundle.file}#`, failureMessage: String(error) };
      }
      this.#mutants.activeMutant = mutant;
      for (const test of tests.sort((one, other) => spent(one.id) - spent(other.id))) {
        const result = await outcomeOf(test, bundle.file);
        if (result.status === FAILED) return result;
      }
    }
    return undefined;
  }
}

async function outcomeOf(test, fileName) {
  const begun = performance.now();
  const about = { id: test.id, name: test.name, fileName };
  try {
    await runTest(test);
    return { ...about, status: SUCCESS, timeSpentMs: performance.now() - begun };
  } catch (error) {
    const failureMessage = error instanceof Error ? error.message : String(error);
    return { ...about, status: FAILED, timeSpentMs: performance.now() - begun, failureMessage };
  }
}

const factory = () => new CoreTestRunner();
factory.inject = [];

export const strykerPlugins = [{ kind: 'TestRunner', name: 'core-tests', factory }];
