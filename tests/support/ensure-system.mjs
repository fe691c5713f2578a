/**
 * Before the tests: what they need from the system. Missing Debian packages are installed when this process may;
 * otherwise one line says what to install and the tests do not start.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const NEEDED = [
  { package: 'chromium', file: '/usr/bin/chromium', for: 'browser tests' },
  { package: 'socat', file: '/usr/bin/socat', for: 'pairs of pseudo-terminals' },
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
