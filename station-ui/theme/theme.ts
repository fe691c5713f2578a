import { DARK, LIGHT } from './dyes.ts';
import type { Dyes } from './dyes.ts';
import { wearSheet } from './wear-sheet.ts';

export const THEMES = ['light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

const KEPT_AS = 'benchfold.theme';

function kebab(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function properties(dyes: Dyes): string {
  return Object.entries(dyes)
    .map(([name, colour]) => `--${kebab(name)}:${String(colour)}`)
    .join(';');
}

/** The dyes as custom properties: the system's theme, unless the page carries `data-theme`. */
function themeSheet(): string {
  const light = `color-scheme:light;${properties(LIGHT)}`;
  const dark = `color-scheme:dark;${properties(DARK)}`;
  return [
    `:root{${light}}`,
    `@media (prefers-color-scheme:dark){:root:not([data-theme=light]){${dark}}}`,
    `:root[data-theme=dark]{${dark}}`,
  ].join('\n');
}

/** What the page shows now. */
export function currentTheme(): Theme {
  const chosen = document.documentElement.dataset.theme;
  if (chosen === 'light' || chosen === 'dark') return chosen;
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

export function chooseTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(KEPT_AS, theme);
  } catch {
    // A browser may forbid storage; the choice then lasts as long as the page.
  }
}

/** Puts the dyes on the page, with the theme chosen on this tablet before. */
export function wearTheme(): void {
  wearSheet(document, themeSheet());
  try {
    const kept = localStorage.getItem(KEPT_AS);
    if (kept === 'light' || kept === 'dark') document.documentElement.dataset.theme = kept;
  } catch {
    // No storage: the system's theme.
  }
}
