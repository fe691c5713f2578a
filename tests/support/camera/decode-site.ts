import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, resolve } from 'node:path';
import { build } from 'vite';
import { temporaryFolder } from '../server-process.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
const TYPES: Readonly<Record<string, string>> = { '.js': 'text/javascript', '.wasm': 'application/wasm' };

/** The decoders on a page of their own, and the pictures that it may ask for. */
export interface DecodeSite {
  readonly url: string;
  /** the next picture that the page is given; answers its address */
  readonly offer: (picture: Uint8Array) => string;
  close(): void;
}

/** Builds the page as the station's own pages are built, and serves it on a free port of this machine. */
export async function decodeSite(): Promise<DecodeSite> {
  const folder = temporaryFolder('decode-site');
  await build({
    configFile: false,
    root: ROOT,
    logLevel: 'error',
    build: {
      outDir: folder.path,
      target: 'es2022',
      rolldownOptions: {
        input: join(ROOT, 'tests/browser/in-page/decode.ts'),
        output: { entryFileNames: 'decode.js' },
      },
    },
  });
  let offered: Uint8Array = new Uint8Array();
  let count = 0;
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname;
    if (path.startsWith('/picture/')) return void response.end(offered);
    if (path === '/') {
      response.setHeader('Content-Type', 'text/html');
      return void response.end('<!doctype html><title>decode</title><script type="module" src="/decode.js"></script>');
    }
    try {
      const body = readFileSync(join(folder.path, path));
      response.setHeader('Content-Type', TYPES[extname(path)] ?? 'application/octet-stream');
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    url: `http://localhost:${(server.address() as AddressInfo).port}/`,
    offer: (picture) => {
      offered = picture;
      count += 1;
      return `/picture/${count}`;
    },
    close: () => {
      server.close();
      folder.remove();
    },
  };
}
