/** Before tests that run the built program: builds what is stale. */
import { buildStale } from '../../server/build-steps.mjs';

export async function setup() {
  await buildStale();
}
