/** Builds what is missing or stale, then becomes the server. */
import { join } from 'node:path';
import { buildStale, ROOT } from './build-steps.mjs';

await buildStale();
await import(join(ROOT, 'build/server/main.js'));
