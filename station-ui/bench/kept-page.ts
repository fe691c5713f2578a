import { versionHere } from './page-version.ts';

const WORKER = '/bench-worker.js';
const SCOPE = '/bench';

/** Has the page kept, so that it starts while the server is away; browsers offer it on localhost and HTTPS only. */
export async function keepPage(): Promise<void> {
  const version = versionHere();
  if (!('serviceWorker' in navigator) || version === null) return;
  try {
    const registration = await navigator.serviceWorker.register(WORKER, { scope: SCOPE });
    /** The worker of this very page takes over from an older one; an older page never calls a newer worker. */
    const take = (): void => registration.waiting?.postMessage(version);
    take();
    registration.addEventListener('updatefound', () => {
      registration.installing?.addEventListener('statechange', take);
    });
  } catch {
    // Not kept: the page then starts as long as the server is there.
  }
}

/** The address of the installed bench is this one: its own name, and it opens here again. */
export function sayInstallable(bench: string): void {
  const link = document.createElement('link');
  link.rel = 'manifest';
  link.href = `/app/${encodeURIComponent(bench)}.webmanifest`;
  document.head.append(link);
}
