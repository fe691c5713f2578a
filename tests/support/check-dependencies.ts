import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { auditLines } from './audit-lines.ts';
import { dependencyProblems, type Lock, type Manifest } from './dependency-problems.ts';

// Before a release: is what would be installed whole, free to use, from the registry, and without a known hole?

const read = (file: string): unknown => JSON.parse(readFileSync(file, 'utf8'));
const lock = read('package-lock.json') as Lock;
const problems = dependencyProblems(lock, read('package.json') as Manifest);
for (const problem of problems) console.error(problem);
console.log(`${String(Object.keys(lock.packages).length - 1)} packages looked at: ${String(problems.length)} problems`);

const { stdout } = spawnSync('npm', ['audit', '--json', '--package-lock-only'], {
  encoding: 'utf8',
  shell: process.platform === 'win32',
  timeout: 120_000,
  maxBuffer: 64 * 2 ** 20,
});
const audit = auditLines(stdout);
for (const line of audit.lines) console.log(line);
process.exitCode = problems.length > 0 || audit.holes ? 1 : 0;
