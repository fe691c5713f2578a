import { chromium, type Browser, type Page } from 'playwright-core';

/** The system's Chromium without a window. */
export function openBrowser(extra: readonly string[] = []): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      ...extra,
    ],
  });
}

/** What a bench page shows as its task now. */
export function taskOf(page: Page): Promise<string | null> {
  return page.locator('[data-task]').first().getAttribute('data-task');
}

/** Waits until the bench page shows a task. */
export async function untilTask(page: Page, task: string): Promise<void> {
  await page.locator(`[data-task="${task}"]`).first().waitFor({ timeout: 15_000 });
}

/** Collects what goes wrong on a page: uncaught errors and console errors. */
export function watchErrors(page: Page): readonly string[] {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return errors;
}

/** Waits until the page shows the run as it is after an input, or later. */
export async function untilSeq(page: Page, seq: number): Promise<void> {
  const shell = page.locator('[data-seq]').first();
  const end = Date.now() + 10_000;
  while (Date.now() < end) {
    if (Number(await shell.getAttribute('data-seq')) >= seq) return;
    await page.waitForTimeout(20);
  }
  throw new Error(`the page never showed input ${String(seq)}`);
}
