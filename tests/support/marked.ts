import type { Page } from 'playwright-core';
import { MARKED_ELEMENT } from './hostile-texts.ts';

/** What hostile texts made of a page: elements of theirs in any shadow root, and values of their scripts. Nothing, where all is well. */
export function marked(page: Page): Promise<readonly string[]> {
  return page.evaluate<readonly string[], string>((selector) => {
    interface Root {
      querySelectorAll(which: string): Iterable<{ readonly outerHTML: string; readonly shadowRoot: Root | null }>;
    }
    const look = (root: Root): string[] => [
      ...[...root.querySelectorAll(selector)].map(({ outerHTML }) => outerHTML.slice(0, 200)),
      ...[...root.querySelectorAll('*')].flatMap(({ shadowRoot }) => (shadowRoot === null ? [] : look(shadowRoot))),
    ];
    const { document, zqmark } = globalThis as unknown as { document: Root; zqmark?: unknown };
    return [...look(document), ...(zqmark === undefined ? [] : ['a script ran'])];
  }, MARKED_ELEMENT);
}

/** Texts of a page, whatever shadow root they stand in, its fields among them. */
export function textsOf(page: Page): Promise<string> {
  return page.evaluate(() => {
    interface Root {
      readonly textContent: string | null;
      querySelectorAll(which: string): Iterable<{ readonly shadowRoot: Root | null; readonly value?: unknown }>;
    }
    const look = (root: Root): string =>
      [
        root.textContent ?? '',
        ...[...root.querySelectorAll('*')].map(({ shadowRoot, value }) =>
          shadowRoot === null ? (typeof value === 'string' ? value : '') : look(shadowRoot),
        ),
      ].join('\n');
    return look((globalThis as unknown as { document: { body: Root } }).document.body);
  });
}
