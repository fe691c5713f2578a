/**
 * Before the tests: what they need from the system. Missing Debian packages are installed when this process may;
 * otherwise one line says what to install and the tests do not start.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const NEEDED = [
  { package: 'chromium', file: '/usr/bin/chromium', for: 'browser tests' },
  { package: 'socat', file: '/usr/bin/socat', for: 'pairs of pseudo-terminals' },
  {
    package: 'pocketsphinx-en-us',
    file: '/usr/share/pocketsphinx/model/en-us/en-us/mdef',
    for: 'the recogniser’s model',
  },
  // A library stands in a folder named after the machine: its package's papers stand in the same place everywhere.
  { package: 'libpocketsphinx3', file: '/usr/share/doc/libpocketsphinx3/copyright', for: 'the recogniser' },
  { package: 'libsphinxbase3', file: '/usr/share/doc/libsphinxbase3/copyright', for: 'the recogniser' },
  { package: 'espeak-ng', file: '/usr/bin/espeak-ng', for: 'spoken cues' },
  { package: 'flite', file: '/usr/bin/flite', for: 'the voices that the recogniser is tried with' },
  // The server's programs stand in a folder named after its version.
  { package: 'postgresql', file: '/usr/share/doc/postgresql/copyright', for: 'the store in a database' },
  { package: 'sox', file: '/usr/bin/sox', for: 'the noise that the recogniser is tried with' },
];

const missing = NEEDED.filter((each) => !existsSync(each.file));
if (missing.length > 0) {
  const names = missing.map((each) => each.package);
  const mayInstall = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    spawnSync('apt-get', ['update'], { stdio: 'inherit', env });
    spawnSync('apt-get', ['install', '-y', '--no-install-recommends', ...names], { stdio: 'inherit', env });
  }
  const still = missing.filter((each) => !existsSync(each.file));
  if (still.length > 0) {
    console.error(
      `The tests need ${still.map((each) => `${each.package} (${each.for})`).join(', ')}: apt-get install ${names.join(' ')}`,
    );
    process.exit(1);
  }
}
