/** What is built, and whether it is stale: a digest of every source stands beside the build. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildPages } from './build-pages.mjs';

export const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const BUILD = join(ROOT, 'build');
const COMMON = ['package.json', 'package-lock.json', 'shared'];
const PARTS = {
  server: { sources: [...COMMON, 'server', 'drivers', 'config'], made: 'server/main.js', build: buildServer },
  api: {
    sources: [...COMMON, 'tsconfig.json', 'server/api/wire-schemas.mjs'],
    made: 'api/wire.json',
    build: buildWireSchemas,
  },
  ui: {
    sources: [...COMMON, 'station-ui', 'vite.config.ts', 'tsconfig.ui.json', 'server/build-pages.mjs'],
    made: 'ui/bench-worker.js',
    build: (digest) => buildPages(ROOT, digest.slice(0, 12)),
  },
};

function* filesBelow(path) {
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    const below = join(path, entry.name);
    if (entry.isDirectory()) yield* filesBelow(below);
    else if (/\.(ts|mjs|css|html|svg|png|json)$/.test(entry.name)) yield below;
  }
}

function digestOf(sources) {
  const hash = createHash('sha256').update(process.version);
  for (const source of sources) {
    const path = join(ROOT, source);
    if (!existsSync(path)) continue;
    const files = source.includes('.') ? [path] : [...filesBelow(path)].sort();
    for (const file of files) hash.update(file.slice(ROOT.length)).update(readFileSync(file));
  }
  return hash.digest('hex');
}

/** Builds the named parts that are missing or older than their sources. Returns what was built. */
export async function buildStale(names = Object.keys(PARTS)) {
  const built = [];
  for (const name of names) {
    const { sources, made, build } = PARTS[name];
    const stamp = join(BUILD, `${name}.digest`);
    const digest = digestOf(sources);
    const fresh = existsSync(join(BUILD, made)) && existsSync(stamp) && readFileSync(stamp, 'utf8') === digest;
    if (fresh) continue;
    await build(digest);
    mkdirSync(BUILD, { recursive: true });
    writeFileSync(stamp, digest);
    built.push(name);
  }
  return built;
}

async function buildWireSchemas() {
  // The compiler is large: whoever builds nothing does not wait for it.
  const { writeWireSchemas } = await import('./api/wire-schemas.mjs');
  writeWireSchemas(ROOT, join(BUILD, 'api/wire.json'));
}

async function buildServer() {
  const { build } = await import('esbuild');
  await build({
    absWorkingDir: ROOT,
    entryPoints: {
      main: 'server/main.ts',
      cli: 'server/cli/main.ts',
      'plan-worker': 'server/planning/plan-worker.ts',
      'backup-worker': 'server/backup/backup-worker.ts',
      'checkpoint-worker': 'server/store/checkpoint-worker.ts',
      'write-anew-worker': 'server/store/write-anew-worker.ts',
      'listener-process': 'drivers/voice/listener-process.ts',
    },
    outdir: 'build/server',
    bundle: true,
    splitting: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    sourcemap: true,
    logLevel: 'warning',
  });
}
