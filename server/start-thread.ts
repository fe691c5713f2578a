import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker, type ResourceLimits } from 'node:worker_threads';

/** Where the built threads are of a program that runs from its sources: they start in a fraction of the time. */
const BUILT_THREADS = 'BENCHFOLD_BUILT_THREADS';

/**
 * Starts a thread. In a build its JavaScript stands beside this one; sources need the loader that runs this one in the new
 * thread too.
 * @param source of what the thread does; JavaScript is run as it stands
 */
export function startThread(source: URL, workerData: unknown, resourceLimits: ResourceLimits = {}): Worker {
  const given = { workerData, resourceLimits };
  if (!source.pathname.endsWith('.ts')) return new Worker(source, given);
  const name = `${basename(fileURLToPath(source), '.ts')}.js`;
  if (!import.meta.url.endsWith('.ts')) return new Worker(new URL(`./${name}`, import.meta.url), given);
  const built = process.env[BUILT_THREADS];
  if (built !== undefined) return new Worker(pathToFileURL(join(built, name)), given);
  const text = JSON.stringify(source.href);
  const begin = `import('tsx/esm/api').then(({ register }) => { register(); return import(${text}); })`;
  return new Worker(begin, { ...given, eval: true });
}
