import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

/** Where the pictures go for somebody who looks at them; nowhere where nobody asked. */
const FOLDER = process.env['BENCHFOLD_PICTURES'];

/** Leaves a picture of the page as it stands, if somebody asked for pictures. */
export async function keepPicture(page: Page, name: string, fullPage = true): Promise<void> {
  if (FOLDER === undefined) return;
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path: join(FOLDER, `${name}.png`), fullPage });
}
