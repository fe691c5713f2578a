import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const require = createRequire(import.meta.url);
const AXE = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly target: unknown }[];
}

/** All rules, those of WCAG 2.2 A and AA, or all that do not look at colours, where the same colours were looked at before. */
type Rules = 'all' | 'wcag' | 'not colours';

const OPTIONS = {
  all: {},
  wcag: { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
  'not colours': { rules: { 'color-contrast': { enabled: false } } },
} as const satisfies Record<Rules, object>;

/** What the accessibility rules hold against the page as it stands. */
export async function violations(page: Page, which: Rules = 'all'): Promise<readonly string[]> {
  if (!(await page.evaluate<boolean>("typeof axe === 'object'"))) await page.evaluate(AXE);
  const found = await page.evaluate<readonly Violation[]>(
    `axe.run(document, ${JSON.stringify(OPTIONS[which])}).then((result) => result.violations)`,
  );
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => JSON.stringify(target)).join(', ')}`);
}
