/**
 * Runs the tests. Few files that fail are run once more by themselves: a machine that is busy with something else makes
 * a wait too short now and then, and whoever reads the answer should know which kind it was. What fails twice fails;
 * what passes only by itself passes, and is named as unsteady, to be mended.
 * Arguments are the runner's own; `--once` runs nothing a second time; `--order=SEED` runs the files in an order drawn
 * with that seed, a whole number.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { relative } from 'node:path';

const RESULTS = 'build/test-results.json';
/** More than these are a fault of the product, not of the machine. */
const FEW = 4;

const given = process.argv.slice(2);
const once = given.includes('--once');
const order = given.find((each) => each.startsWith('--order='))?.slice('--order='.length);
const passed = given.filter((each) => each !== '--once' && !each.startsWith('--order='));
if (order !== undefined && !/^\d{1,9}$/.test(order)) {
  console.error(`--order is a seed, a whole number, such as --order=7; there was "${order}".`);
  process.exit(1);
}

/** @returns {Promise<number>} */
function vitest(args) {
  return new Promise((done) => {
    const env = order === undefined ? process.env : { ...process.env, BENCHFOLD_TEST_ORDER: order };
    const child = spawn('vitest', ['run', ...args], { stdio: 'inherit', env });
    child.once('exit', (code) => done(code ?? 1));
    child.once('error', () => done(1));
  });
}

/** The files with a test that failed; null where the run itself broke down. */
function failedFiles() {
  try {
    const { testResults } = JSON.parse(readFileSync(RESULTS, 'utf8'));
    return testResults.flatMap(({ name, status }) => (status === 'failed' ? [relative('.', name)] : []));
  } catch {
    return null;
  }
}

mkdirSync('build', { recursive: true });
rmSync(RESULTS, { force: true });
const first = await vitest([...passed, '--reporter=default', '--reporter=json', `--outputFile.json=${RESULTS}`]);
const failed = first === 0 ? [] : [...new Set(failedFiles() ?? [])];
if (first === 0 || once || failed.length === 0 || failed.length > FEW) process.exit(first);

console.log(`\nOnce more by themselves: ${failed.join(', ')}`);
const second = await vitest(failed);
if (second === 0) console.log(`UNSTEADY, passed only by themselves: ${failed.join(', ')}`);
process.exit(second);
