import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { Figure } from './figure.ts';

/** One benchmark's last run: what it measured, or why it did not end. */
export interface Measured {
  readonly bench: string;
  /** when it began, ISO 8601 */
  readonly at: string;
  readonly seconds: number;
  readonly machine: string;
  /** mean number of processes that wanted a core in the minute before: other work spoils figures of time */
  readonly load: number;
  /** the version of the sources, or "unknown" where they are in no repository */
  readonly sources: string;
  readonly figures: readonly Figure[];
  readonly failure: string | null;
}

/** The file that keeps the last run of every benchmark. */
export const KEPT = fileURLToPath(new URL('../../build/figures.json', import.meta.url));

/** Processor, cores, memory, and the version of Node. */
export function machine(): string {
  const [processor] = cpus();
  const memory = Math.round(totalmem() / 2 ** 30);
  return `${processor?.model ?? 'unknown processor'}, ${String(cpus().length)} cores, ${String(memory)} GB, Node ${process.version}`;
}

/** The load and the sources at the start of a run. */
export function circumstances(): Pick<Measured, 'at' | 'machine' | 'load' | 'sources'> {
  return {
    at: new Date().toISOString(),
    machine: machine(),
    load: Math.round((loadavg()[0] ?? 0) * 10) / 10,
    sources: sources(),
  };
}

/** Keeps a run in place of the benchmark's run before; those of other benchmarks stay. */
export function keep(measured: Measured, file = KEPT): void {
  const others = kept(file).filter(({ bench }) => bench !== measured.bench);
  mkdirSync(new URL('.', `file://${file}`), { recursive: true });
  writeFileSync(file, `${JSON.stringify({ measured: [...others, measured] }, null, 2)}\n`);
}

/** The last run of every benchmark that was run here. */
export function kept(file = KEPT): readonly Measured[] {
  try {
    return (JSON.parse(readFileSync(file, 'utf8')) as { measured: readonly Measured[] }).measured;
  } catch {
    return [];
  }
}

function sources(): string {
  try {
    return execFileSync('git', ['describe', '--always', '--dirty'], { encoding: 'utf8', stdio: 'pipe' }).trim();
  } catch {
    return 'unknown';
  }
}
