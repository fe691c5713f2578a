/** Finds elements through open shadow roots, as a person's eye would. */
export function all(root: ParentNode & { readonly shadowRoot?: ShadowRoot | null }, selector: string): HTMLElement[] {
  const inside = root.shadowRoot ?? root;
  const found: HTMLElement[] = [];
  for (const element of inside.querySelectorAll<HTMLElement>('*')) {
    if (element.matches(selector)) found.push(element);
    if (element.shadowRoot !== null) found.push(...all(element, selector));
  }
  return found;
}

export function one(
  root: ParentNode & { readonly shadowRoot?: ShadowRoot | null },
  selector: string,
): HTMLElement | null {
  return all(root, selector)[0] ?? null;
}

/** All text below an element, through shadow roots, with single spaces; style sheets are no text. */
export function text(node: Node | null | undefined): string {
  if (node === null || node === undefined) return '';
  return gather(node).replace(/\s+/g, ' ').trim();
}

function gather(node: Node): string {
  if (node.nodeType === Node.TEXT_NODE) return node.textContent ?? '';
  if (node instanceof HTMLElement && (node.tagName === 'STYLE' || node.tagName === 'SCRIPT')) return '';
  const inside: Node = (node instanceof HTMLElement ? node.shadowRoot : null) ?? node;
  return [...inside.childNodes].map(gather).join(' ');
}
