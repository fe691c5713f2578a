const made = new Map<string, CSSStyleSheet>();

/** Puts a style sheet on a page, or into an element, once. It is made by code, since the page takes none that stands in it. */
export function wearSheet(root: DocumentOrShadowRoot, text: string): void {
  let sheet = made.get(text);
  if (sheet === undefined) {
    sheet = new CSSStyleSheet();
    sheet.replaceSync(text);
    made.set(text, sheet);
  }
  if (!root.adoptedStyleSheets.includes(sheet)) root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
}
