import { chromium, type LaunchOptions } from 'playwright-core';

/** Where the browser that all files share is reached. */
export const SHARED_BROWSER = 'BENCHFOLD_TESTS_BROWSER';

export function launchOptions(extra: readonly string[] = []): LaunchOptions {
  return {
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...extra,
    ],
  };
}

/** Before all: a browser that is started once. After all: it is closed. */
export async function setup(): Promise<() => Promise<void>> {
  const server = await chromium.launchServer(launchOptions());
  process.env[SHARED_BROWSER] = server.wsEndpoint();
  return () => server.close();
}
