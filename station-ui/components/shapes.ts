import { html, svg } from 'lit';
import type { SVGTemplateResult, TemplateResult } from 'lit';

/** How a thing stands. Each has a shape of its own; whoever shows one puts a word beside it. */
export type Standing = 'well' | 'attention' | 'stop' | 'current' | 'waiting';

/** A sewn-on button: done, well. */
const button = svg`
  <circle cx="12" cy="12" r="10" fill="none" stroke="var(--verdigris)" stroke-width="3.4"/>
  <g fill="var(--verdigris)">
    <circle cx="9" cy="9" r="1.7"/><circle cx="15" cy="9" r="1.7"/>
    <circle cx="9" cy="15" r="1.7"/><circle cx="15" cy="15" r="1.7"/>
  </g>`;

/** A diamond of slanted stripes: attention. */
const diamond = svg`
  <path d="M12 1 23 12 12 23 1 12Z" fill="var(--weld)" stroke="var(--on-weld)" stroke-width="2"/>
  <path d="M7.2 14.8 14.8 7.2M9.8 17.4 17.4 9.8" stroke="var(--on-weld)" stroke-width="2.2"/>`;

/** A torn edge held by a cross-stitch: stop. */
const torn = svg`
  <path d="M1 4 5 1 9 4 13 1 17 4 21 1 23 3V21L19 23 15 20 11 23 7 20 3 23 1 21Z" fill="none"
    stroke="var(--madder)" stroke-width="2"/>
  <path d="M7 7 17 17M17 7 7 17" stroke="var(--madder)" stroke-width="3.2" stroke-linecap="round"/>`;

/** A running stitch: where the work is. */
const stitch = svg`
  <path d="M1 12H10M14 12H23" stroke="var(--indigo)" stroke-width="4.6" stroke-linecap="round"/>`;

/** An unsewn buttonhole: not yet. */
const hole = svg`
  <path d="M4 12H20" stroke="var(--walnut)" stroke-width="2.4" stroke-dasharray="2 3.2"/>
  <path d="M4 9V15M20 9V15" stroke="var(--walnut)" stroke-width="2.4"/>`;

const DRAWN: Readonly<Record<Standing, SVGTemplateResult>> = {
  well: button,
  attention: diamond,
  stop: torn,
  current: stitch,
  waiting: hole,
};

/** The shape of a standing, hidden from screen readers: the word beside it is what they read. */
export function shape(standing: Standing, size = 26): TemplateResult {
  return html`<svg
    class="shape"
    data-shape=${standing}
    width=${size}
    height=${size}
    viewBox="0 0 24 24"
    aria-hidden="true"
    style="flex:none"
  >
    ${DRAWN[standing]}
  </svg>`;
}
