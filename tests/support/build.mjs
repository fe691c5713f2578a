/** Before tests that run the built program: builds what is stale. Servers within tests start their threads from it, too. */
import { join } from 'node:path';
import { buildStale, ROOT } from '../../server/build-steps.mjs';

export async function setup() {
  await buildStale();
  process.env.BENCHFOLD_BUILT_THREADS = join(ROOT, 'build/server');
}
