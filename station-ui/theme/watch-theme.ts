/** Calls back whenever the page's dyes become other ones: what is drawn on a canvas does not follow by itself. */
export function watchTheme(changed: () => void): () => void {
  const chosen = new MutationObserver(changed);
  chosen.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
  const system = matchMedia('(prefers-color-scheme: dark)');
  system.addEventListener('change', changed);
  return () => {
    chosen.disconnect();
    system.removeEventListener('change', changed);
  };
}
