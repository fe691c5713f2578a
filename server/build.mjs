import { buildStale } from './build-steps.mjs';

const built = await buildStale();
console.log(built.length === 0 ? 'Everything is up to date.' : `Built: ${built.join(', ')}.`);
