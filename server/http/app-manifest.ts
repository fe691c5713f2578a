import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Router } from 'express';
import type { AppParts } from './app.ts';
import { HttpError } from './http-error.ts';

/** Ground and band of the light theme, as the installed bench shows them before its page is there. */
const CHALK = '#FBF8F1';
const INDIGO = '#27346B';

/** `GET /app/bench-1.webmanifest`: a bench as an app that opens at that bench (W3C Web Application Manifest). */
export function appManifest({ stations, shops }: Pick<AppParts, 'stations' | 'shops'>): Router {
  const routes = Router();
  routes.get('/app/:bench.webmanifest', (request, response) => {
    const id = request.params.bench;
    const station = stations.get(id);
    if (station === undefined) throw new HttpError(404, 'unknown-bench', `There is no bench "${id}".`);
    const address = `/bench/${encodeURIComponent(id)}`;
    response
      .set('Cache-Control', 'no-cache')
      .type('application/manifest+json')
      .send(
        JSON.stringify({
          id: address,
          name: `${station.bench.name} · ${shops.current.name}`,
          short_name: station.bench.name,
          lang: shops.current.language,
          start_url: address,
          scope: '/bench',
          display: 'fullscreen',
          background_color: CHALK,
          theme_color: INDIGO,
          icons: [
            { src: '/app/icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
            { src: '/app/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
            { src: '/app/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
            { src: '/app/icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' },
          ],
        }),
      );
  });
  return routes;
}

/** Which build the bench's page is; null where it is not built. Read each time: pages may be built anew under a running server. */
export function pagesVersion(pages: string): string | null {
  try {
    const page = readFileSync(join(pages, 'bench.html'), 'utf8');
    return /<meta name="pages-version" content="([^"]+)"/.exec(page)?.[1] ?? null;
  } catch {
    return null;
  }
}
