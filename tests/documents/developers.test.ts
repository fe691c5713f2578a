import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const text = readFileSync('DEVELOPERS.md', 'utf8');

/** The lines of the table under a heading, without its head. */
function tableUnder(heading: string): readonly string[][] {
  const section = text.split(`\n## ${heading}\n`)[1]?.split('\n## ')[0] ?? '';
  return section
    .split('\n')
    .filter((line) => line.startsWith('| ') && !line.startsWith('| ---'))
    .slice(1)
    .map((line) => line.split('|').slice(1, -1));
}

const inTicks = (words: string) =>
  [...words.replaceAll(/```[^]*?```/g, '').matchAll(/`([^`]+)`/g)].map(([, path = '']) => path);

function foldersOf(parent: string): readonly string[] {
  return (
    readdirSync(parent, { withFileTypes: true })
      // What a running shop keeps of its files' earlier versions is no part of the program.
      .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
      .map((entry) => `${parent}/${entry.name}`)
  );
}

const ROOMS = ['server', 'station-ui', 'drivers', 'config', 'shared'];
const described = tableUnder('Code map');

describe('the code map of DEVELOPERS.md', () => {
  it('describes every folder right inside a room', () => {
    const named = described.map(([folders = '', what = '']) => ({ folders: inTicks(folders), what }));
    // In a row of its own, or by its name with a stroke behind it in the row of its room.
    const isDescribed = (folder: string) =>
      named.some(({ folders, what }) => {
        const room = folders.find((each) => folder.startsWith(`${each}/`));
        const inner = room === undefined ? '' : folder.slice(room.length + 1);
        return folders.includes(folder) || (inner !== '' && inTicks(what).some((path) => path === `${inner}/`));
      });
    expect(ROOMS.flatMap(foldersOf).filter((folder) => !isDescribed(folder))).toEqual([]);
  });

  it('names no folder that is not there', () => {
    const gone = described.flatMap(([folders = '', what = '']) => {
      const [room = ''] = inTicks(folders);
      const inside = inTicks(what)
        .filter((path) => path.endsWith('/'))
        .map((path) => `${room}/${path}`);
      return [...inTicks(folders), ...inside].filter((path) => !existsSync(path));
    });
    expect(gone).toEqual([]);
  });
});

describe('what DEVELOPERS.md and README.md point at', () => {
  it.each(['DEVELOPERS.md', 'README.md'])('every file of the tree that %s names is there', (document) => {
    const paths = inTicks(readFileSync(document, 'utf8')).filter((path) =>
      /^(server|station-ui|drivers|tests|config|shared)\/[\w./-]+\.(ts|mjs|yaml|html|csv|png)$/.test(path),
    );
    expect(paths.length).toBeGreaterThan(2);
    expect(paths.filter((path) => !existsSync(path))).toEqual([]);
  });

  it('every command of npm is there, and every benchmark', () => {
    const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
    const both = text + readFileSync('README.md', 'utf8');
    const run = [...both.matchAll(/npm run (?:-s )?([\w-]+)/g)].map(([, name = '']) => name);
    expect(run.filter((name) => !(name in scripts))).toEqual([]);
    const benches = [...both.matchAll(/npm run -s bench -- (\w[\w-]*)/g)].map(([, name = '']) => name);
    expect(benches.filter((name) => !existsSync(`tests/benchmarks/${name}.ts`))).toEqual([]);
  });
});
