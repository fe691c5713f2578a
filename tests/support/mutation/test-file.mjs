import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { readFile } from 'node:fs/promises';
import { deserialize, serialize } from 'node:v8';
import { compileFunction } from 'node:vm';
import { build } from 'esbuild';

/** Every file knows where it lies, as it would had it not been put into one with the others. */
const knowsItsPlace = {
  name: 'knows-its-place',
  setup({ onLoad }) {
    onLoad({ filter: /\.ts$/ }, async ({ path }) => {
      const text = await readFile(path, 'utf8');
      return { contents: text.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)), loader: 'ts' };
    });
  },
};

/** Reading YAML takes longer than most tests, and the shop's files are the same for every mutant. */
function readOnce(yaml) {
  const kept = new Map();
  const parse = (text) => {
    if (!kept.has(text)) kept.set(text, serialize(yaml.parse(text)));
    return deserialize(kept.get(text));
  };
  return { ...yaml, parse };
}

/**
 * Test files of the core as functions that can be run again and again in this process, each time with modules of their own:
 * all of ours is in one text, what comes from packages is loaded once.
 * @returns for each file what it consists of and `load(api)`, which carries out its body against a stand-in for the test
 *   library
 */
export async function bundled(files, setups) {
  const folder = process.cwd();
  const fromPackages = createRequire(join(folder, 'package.json'));
  const yaml = readOnce(fromPackages('yaml'));
  return Promise.all(
    files.map(async (file) => {
      const imports = [...setups, file].map((each) => `import ${JSON.stringify(`./${each}`)};`);
      const { outputFiles, metafile } = await build({
        stdin: { contents: imports.join('\n'), resolveDir: folder, loader: 'ts' },
        absWorkingDir: folder,
        bundle: true,
        write: false,
        metafile: true,
        platform: 'node',
        target: 'node20',
        format: 'cjs',
        packages: 'external',
        plugins: [knowsItsPlace],
        logLevel: 'error',
      });
      const body = compileFunction(outputFiles[0].text, ['require', 'module', 'exports'], { filename: file });
      const load = (api) => {
        const module = { exports: {} };
        const require = (name) => (name === 'vitest' ? api : name === 'yaml' ? yaml : fromPackages(name));
        body(require, module, module.exports);
      };
      return { file, inputs: new Set(Object.keys(metafile.inputs)), load };
    }),
  );
}
