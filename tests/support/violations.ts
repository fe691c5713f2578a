import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly target: unknown }[];
}

/** What the accessibility rules hold against the page as it stands. */
export async function violations(page: Page): Promise<readonly string[]> {
  if (!(await page.evaluate<boolean>("typeof axe === 'object'"))) await page.evaluate(AXE);
  const found = await page.evaluate<readonly Violation[]>('axe.run(document).then((result) => result.violations)');
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => JSON.stringify(target)).join(', ')}`);
}
