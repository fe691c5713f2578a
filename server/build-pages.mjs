/** Builds the two pages, and the worker that keeps the bench's page for when the server is away. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What is shown without any of the page's text: it must be there when nothing else can be fetched. */
const ICONS = ['/app/icon.svg', '/app/icon-192.png', '/app/icon-512.png'];

/**
 * @param root folder of the project
 * @param version told by the bench's page, so that one can be told from the next
 */
export async function buildPages(root, version) {
  const { build } = await import('vite');
  const { output } = await build({
    configFile: join(root, 'vite.config.ts'),
    root: join(root, 'station-ui'),
    logLevel: 'warn',
  });
  const page = join(root, 'build/ui/bench.html');
  writeFileSync(page, stamped(readFileSync(page, 'utf8'), version));
  const { build: bundle } = await import('esbuild');
  await bundle({
    absWorkingDir: root,
    entryPoints: ['station-ui/worker/bench-worker.ts'],
    outfile: 'build/ui/bench-worker.js',
    bundle: true,
    format: 'iife',
    target: 'es2022',
    define: { PAGES_VERSION: JSON.stringify(version), KEPT_FILES: JSON.stringify([...filesOfBench(output), ...ICONS]) },
    logLevel: 'warning',
  });
}

function stamped(html, version) {
  const told = html.replace('content="unbuilt"', `content="${version}"`);
  if (told === html) throw new Error('bench.html has no place for its version');
  return told;
}

/** Every file of the bench's page but the camera's decoders, which are kept once they were used. */
function filesOfBench(output) {
  const byName = new Map(output.map((file) => [file.fileName, file]));
  const kept = new Set();
  const waiting = output
    .filter((file) => file.type === 'chunk' && file.isEntry && file.name === 'bench')
    .map((file) => file.fileName);
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    const file = byName.get(name);
    if (file === undefined || kept.has(name)) continue;
    kept.add(name);
    if (file.type === 'chunk') {
      const { importedCss = [] } = file.viteMetadata ?? {};
      waiting.push(...file.imports, ...file.dynamicImports, ...importedCss);
    } else if (name.endsWith('.css')) {
      for (const [, font] of String(file.source).matchAll(/url\("?\/(assets\/[^")]+\.woff2)"?\)/g)) waiting.push(font);
    }
  }
  return [...kept].map((name) => `/${name}`).sort();
}
