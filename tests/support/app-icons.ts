/** Draws the icons of the installed bench from their one drawing: `npx tsx tests/support/app-icons.ts`; commit them. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { openBrowser } from './browser.ts';

const FOLDER = resolve(import.meta.dirname, '../../station-ui/public/app');
const SIZES = [192, 512];

const drawing = readFileSync(resolve(FOLDER, 'icon.svg'), 'utf8');
const browser = await openBrowser();
try {
  for (const size of SIZES) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(
      `<style>body{margin:0}svg{display:block;width:${String(size)}px;height:auto}</style>${drawing}`,
    );
    await page.screenshot({ path: resolve(FOLDER, `icon-${String(size)}.png`) });
    await page.close();
  }
} finally {
  await browser.close();
}
