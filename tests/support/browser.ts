import { buffer } from 'node:stream/consumers';
import { chromium, type Browser, type BrowserContext, type Download, type Page } from 'playwright-core';
import { launchOptions, SHARED_BROWSER } from './shared-browser.ts';

/** For a file whose keys must come as fast as a scanner's: another file's page in the same browser would part them. */
export const OWN = ['--mute-audio'] as const;

/** The system's Chromium without a window. Closing it fails where a page of it did what its content policy forbids. */
export async function openBrowser(extra: readonly string[] = []): Promise<Browser> {
  const browser = await launch(extra);
  const broken: string[] = [];
  const [newPage, newContext, close] = [
    browser.newPage.bind(browser),
    browser.newContext.bind(browser),
    browser.close.bind(browser),
  ];
  const watched = async (context: BrowserContext): Promise<BrowserContext> => {
    await context.addInitScript(TELL_BROKEN_POLICY);
    context.on('console', (message) => {
      if (message.type() === 'error' && message.text().includes('Content Security Policy')) broken.push(message.text());
    });
    return context;
  };
  browser.newContext = async (options) => watched(await newContext(options));
  browser.newPage = async (options) => {
    const page = await newPage(options);
    await watched(page.context());
    return page;
  };
  browser.close = async (options) => {
    await close(options);
    if (broken.length > 0) throw new Error(`pages did what their policy forbids:\n${[...new Set(broken)].join('\n')}`);
  };
  return browser;
}

/** CSP Level 3, 5.5: what the browser says in words, and what a page is told of it by an event. */
const TELL_BROKEN_POLICY = `document.addEventListener('securitypolicyviolation', (event) => console.error(
  'Content Security Policy: ' + [event.effectiveDirective, event.blockedURI, event.sourceFile, event.lineNumber].join(' ')));`;

/** The one browser of all files that ask for nothing special, each with windows and a memory of its own; or another one. */
function launch(extra: readonly string[]): Promise<Browser> {
  const shared = process.env[SHARED_BROWSER];
  if (extra.length === 0 && shared !== undefined) return chromium.connect(shared);
  return chromium.launch(launchOptions(extra));
}

/** What a bench page shows as its task now. */
export function taskOf(page: Page): Promise<string | null> {
  return page.locator('[data-task]').first().getAttribute('data-task');
}

/** Waits until the bench page shows a task. */
export async function untilTask(page: Page, task: string): Promise<void> {
  await page.locator(`[data-task="${task}"]`).first().waitFor({ timeout: 15_000 });
}

/** What a page gave to be kept, as text with its byte order mark. */
export async function textOf(file: Download): Promise<string> {
  return (await buffer(await file.createReadStream())).toString('utf8');
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

/**
 * The keys of a code and Enter, as a scanner that is a keyboard sends them: all at once, however slowly this computer
 * tells the browser of each. Letters, digits and hyphens.
 */
export async function typeAsScanner(page: Page, text: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const keys = Array.from(text, (key) => ({ key, text: key, code: codeOf(key) }));
  await Promise.all(
    [...keys, { key: 'Enter', text: '\r', code: 'Enter' }].flatMap((key) => [
      session.send('Input.dispatchKeyEvent', { type: 'keyDown', ...key }),
      session.send('Input.dispatchKeyEvent', { type: 'keyUp', key: key.key, code: key.code }),
    ]),
  );
  await session.detach();
}

function codeOf(key: string): string {
  if (key === '-') return 'Minus';
  return /\d/.test(key) ? `Digit${key}` : `Key${key.toUpperCase()}`;
}
