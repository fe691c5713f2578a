/** Builds the server part when it is missing or stale, then becomes the command line. Nothing else is printed. */
import { join } from 'node:path';
import { buildStale, ROOT } from './build-steps.mjs';

await buildStale(process.argv[2] === 'api' ? ['server', 'api'] : ['server']);
await import(join(ROOT, 'build/server/cli.js'));
