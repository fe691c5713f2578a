import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly target: unknown }[];
}

/** What the accessibility rules hold against the page as it stands; of WCAG 2.2 A and AA alone, or all of them. */
export async function violations(page: Page, which: 'all' | 'wcag' = 'all'): Promise<readonly string[]> {
  if (!(await page.evaluate<boolean>("typeof axe === 'object'"))) await page.evaluate(AXE);
  const rules = which === 'wcag' ? { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] } : {};
  const found = await page.evaluate<readonly Violation[]>(
    `axe.run(document, ${JSON.stringify(rules)}).then((result) => result.violations)`,
  );
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => JSON.stringify(target)).join(', ')}`);
}
