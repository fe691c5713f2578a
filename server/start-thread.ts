import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';

/**
 * Starts a thread. In a build its JavaScript stands beside this one; sources need the loader that runs this one in the new
 * thread too.
 * @param source of what the thread does, a file that ends in .ts
 */
export function startThread(source: URL, workerData: unknown): Worker {
  if (!import.meta.url.endsWith('.ts')) {
    return new Worker(new URL(`./${basename(fileURLToPath(source), '.ts')}.js`, import.meta.url), { workerData });
  }
  const text = JSON.stringify(source.href);
  const begin = `import('tsx/esm/api').then(({ register }) => { register(); return import(${text}); })`;
  return new Worker(begin, { workerData, eval: true });
}
