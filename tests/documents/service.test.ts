import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const unit = readFileSync('server/service/benchfold.service', 'utf8');
const container = readFileSync('server/service/Containerfile', 'utf8');
const settings = readFileSync('server/settings.ts', 'utf8') + readFileSync('server/main.ts', 'utf8');

/** Names of the environment that a text sets. */
const environmentOf = (text: string) =>
  new Set([...text.matchAll(/\b(BENCHFOLD_[A-Z_]+|PORT)=/g)].map(([, name]) => name ?? ''));

describe('the example of a systemd unit', () => {
  it('is a unit as systemd itself reads it', () => {
    const folder = mkdtempSync(join(tmpdir(), 'benchfold-unit-'));
    const file = join(folder, 'benchfold.service');
    // The program lies elsewhere here, and the user is made on the shop's computer.
    writeFileSync(
      file,
      unit
        .replace('/usr/bin/node', process.execPath)
        .replaceAll(/^(User|Group|SupplementaryGroups|Documentation)=.*\n/gm, ''),
    );
    const { error, status, stderr } = spawnSync('systemd-analyze', ['verify', '--man=no', file], { encoding: 'utf8' });
    rmSync(folder, { recursive: true });
    if (error !== undefined) {
      // Without systemd: at least every line is a section, a comment or a setting.
      expect(unit.split('\n').filter((line) => line !== '' && !/^(#|\[[A-Z]\w+\]$|[A-Z]\w+=\S)/.test(line))).toEqual(
        [],
      );
      return;
    }
    expect({ status, said: stderr.split('\n').filter((line) => line.includes('benchfold')) }).toEqual({
      status: 0,
      said: [],
    });
  });

  it('starts what the build makes, with settings that there are', () => {
    expect(unit).toContain('ExecStart=/usr/bin/node /opt/benchfold/build/server/main.js');
    for (const name of environmentOf(unit)) expect(settings).toContain(`'${name}'`);
  });
});

describe('the example of a container', () => {
  it('copies what there is, and knows every instruction', () => {
    const lines = container
      .replaceAll(/\\\n/g, ' ')
      .split('\n')
      .filter((line) => line !== '' && !line.startsWith('#'));
    const known = [
      'FROM',
      'RUN',
      'WORKDIR',
      'COPY',
      'USER',
      'ENV',
      'VOLUME',
      'EXPOSE',
      'HEALTHCHECK',
      'STOPSIGNAL',
      'CMD',
    ];
    for (const line of lines) expect(known).toContain(line.trim().split(/\s+/)[0]);
    const copied = lines.filter((line) => line.startsWith('COPY') && !line.includes('--from'));
    for (const line of copied) {
      for (const source of line.split(/\s+/).slice(1, -1)) expect(existsSync(source)).toBe(true);
    }
    for (const name of environmentOf(container)) expect(settings).toContain(`'${name}'`);
  });

  it('has the Node that the package asks for, and the packages that the README names', () => {
    const { engines } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      readonly engines: { readonly node: string };
    };
    const [, major] = /FROM node:(\d+)/.exec(container) ?? [];
    expect(Number(major)).toBeGreaterThanOrEqual(Number(/\d+/.exec(engines.node)?.[0]));
    for (const name of ['libpocketsphinx3', 'libsphinxbase3', 'pocketsphinx-en-us', 'espeak-ng']) {
      expect(container).toContain(name);
      expect(readFileSync('README.md', 'utf8')).toContain(name);
    }
  });
});
