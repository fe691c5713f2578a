import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const FILES = [
  ...readdirSync('station-ui/i18n').map((name) => `station-ui/i18n/${name}`),
  'shared/voice/phrases.ts',
  'server/realtime/offer-words.ts',
  'station-ui/bench/tray.ts',
];
/** Strong for the reader's eye, and no name of anything on a screen. */
const EMPHASIS = new Set([
  'Kill the server',
  'Pack one order.',
  'Cause a close call.',
  'Teach a helper.',
  'Import your own orders.',
  'Bring in your price list.',
  'Connect a scale and a printer.',
  'Photos of what was packed',
  'Practice session',
  'daily trial',
  "carrier's corrections",
  'sent in part',
  'Upgrade:',
  'Disk:',
  '−',
  '+',
]);

it('what the README tells to press or open is called so on a screen', () => {
  const screens = FILES.map((file) => readFileSync(file, 'utf8')).join('\n');
  const readme = readFileSync('README.md', 'utf8');
  const names = [...readme.matchAll(/\*\*([^*]+)\*\*/g)].map(([, name = '']) => name.replace(/\s+/g, ' '));
  expect(names.length).toBeGreaterThan(50);
  const missing = names.filter((name) => !EMPHASIS.has(name) && !screens.includes(name.replace("'", '’')));
  expect(missing).toEqual([]);
});
