import type { Page } from 'playwright-core';
import type { BenchView, DeviceHealth, LiveScale } from '#shared/wire/views.ts';

/** What a bench showed at one moment, as the server sent it. */
export interface Moment {
  readonly view: BenchView;
  readonly live: LiveScale | null;
  readonly devices: readonly DeviceHealth[];
}

/** The bench's own page, with somebody else in the server's place: it shows what it is given. */
const MOUNT = `
  document.body.replaceChildren();
  const never = () => new Promise(() => undefined);
  const shell = document.createElement('bf-bench');
  shell.bench = 'bench-1';
  shell.open = (_, handlers) => {
    window.server = handlers;
    return { input: never, simulate: never, code: never, speech: never, sound: never, ear() {}, close() {} };
  };
  document.body.append(shell);
  shell.updateComplete;
`;

/** Puts the bench's page on the screen, without a bench. */
export async function mountBench(page: Page, url: string): Promise<void> {
  await page.goto(`${url}/bench`);
  await page.locator('bf-choose-bench').waitFor();
  await page.evaluate(MOUNT);
  await page.waitForFunction('window.server !== undefined');
  await page.evaluate('window.server.up()');
}

/** Shows a moment, and waits until it is painted. */
export async function showMoment(page: Page, { view, live, devices }: Moment, theme: 'light' | 'dark'): Promise<void> {
  await page.evaluate(
    `(async () => {
      const { view, live, devices, theme } = ${JSON.stringify({ view, live, devices, theme })};
      document.documentElement.dataset.theme = theme;
      window.server.devices(devices);
      window.server.view(view);
      window.server.scale(live ?? { reading: null, needsEmptying: false, discarded: 0 });
      const frame = () => new Promise((done) => requestAnimationFrame(done));
      await frame();
    })()`,
  );
}

/**
 * What is wrong with the screen as it stands, for an eye at some distance and a finger: targets under 64 px, text under
 * 20 px, text that is cut off. Text that is shortened on purpose is marked by an ellipsis; a list that shows whole rows
 * only may hide the rest.
 */
const LOOK = `
  (() => {
    const wrong = [];
    const up = (node) => node.assignedSlot ?? node.parentElement ?? node.getRootNode().host ?? null;
    const nameOf = (node) => {
      const host = node.getRootNode().host;
      return (host ? host.localName + ' ' : '') + node.localName + (node.className ? '.' + String(node.className).trim().replace(/ +/g, '.') : '');
    };
    const walk = function* (root) {
      for (const node of root.childNodes) {
        if (node.nodeType === 3 && node.data.trim() !== '') yield node;
        if (node.nodeType === 1 && node.localName !== 'style' && node.localName !== 'script') {
          yield node;
          yield* walk(node.shadowRoot ?? node);
        }
      }
    };
    const simulated = (node) => { for (let at = node; at; at = up(at)) if (at.localName === 'bf-tray') return true; return false; };
    for (const node of walk(document.body)) {
      if (node.nodeType === 1) {
        if (!node.matches('button, a[href], input, select, summary') || simulated(node)) continue;
        const { width, height } = node.getBoundingClientRect();
        if (width === 0 || height === 0) continue;
        if (width < 63.5 || height < 63.5) wrong.push('target ' + nameOf(node) + ' ' + Math.round(width) + 'x' + Math.round(height));
        continue;
      }
      const parent = node.parentElement ?? node.getRootNode().host;
      if (!parent.checkVisibility({ opacityProperty: true, visibilityProperty: true }) || simulated(parent)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const box = range.getBoundingClientRect();
      if (box.width === 0 || box.height === 0) continue;
      let clip = { left: 0, top: 0, right: innerWidth, bottom: innerHeight };
      let meant = false;
      const button = parent.closest('button');
      if (button) clip = button.getBoundingClientRect();
      for (let at = parent; at; at = up(at)) {
        const style = getComputedStyle(at);
        if (at.classList.contains('only-read') || style.clipPath.startsWith('inset')) { meant = true; break; }
        if (style.textOverflow === 'ellipsis' || style.webkitLineClamp !== 'none') meant = true;
        if (at.localName === 'bf-task-idle' || /auto|scroll/.test(style.overflowX + style.overflowY)) meant = true;
        if (meant) break;
        if (style.overflowX === 'hidden' || style.overflowY === 'hidden' || style.overflowX === 'clip') {
          const inside = at.getBoundingClientRect();
          clip = { left: Math.max(clip.left, inside.left), top: Math.max(clip.top, inside.top), right: Math.min(clip.right, inside.right), bottom: Math.min(clip.bottom, inside.bottom) };
        }
      }
      const said = '"' + node.data.trim().replace(/\\s+/g, ' ').slice(0, 40) + '" in ' + nameOf(parent);
      const isSvg = parent instanceof SVGElement;
      if (!meant && !isSvg) {
        const size = Number.parseFloat(getComputedStyle(parent).fontSize);
        if (size < 20) wrong.push('text of ' + size + ' px: ' + said);
      }
      // Lines stand closer than the boxes of their letters: a few pixels of a box are no ink.
      const cut = (line) => {
        const loose = line.height * 0.2 + 1;
        return line.left < clip.left - 2 || line.right > clip.right + 2 || line.top < clip.top - loose || line.bottom > clip.bottom + loose;
      };
      if (!meant && [...range.getClientRects()].some(cut)) wrong.push('cut off: ' + said);
    }
    return wrong;
  })()
`;

export function lookAt(page: Page): Promise<readonly string[]> {
  return page.evaluate(LOOK);
}
