import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';

it('no file, export or dependency is there that nothing uses', async () => {
  const said = await promisify(execFile)('npx', ['--no-install', 'knip', '--no-progress']).then(
    ({ stdout }) => stdout,
    (error: unknown) => (error as { readonly stdout?: string }).stdout ?? String(error),
  );
  expect(said.trim()).toBe('');
});
