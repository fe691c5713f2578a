import { html, svg } from 'lit';
import type { SVGTemplateResult, TemplateResult } from 'lit';
import type { ContainerType } from '#shared/fitting/types.ts';

const PICTURES: Readonly<Record<ContainerType, SVGTemplateResult>> = {
  pouch: svg`<path d="M30 40H210V190H30Z" fill="var(--indigo-pale)"/><path d="M30 40 210 40 190 14H50Z" fill="var(--indigo-tint)"/>
    <path d="M38 52H202" stroke-dasharray="10 7"/>`,
  card: svg`<path d="M24 36H216V186H24Z" fill="var(--indigo-pale)"/><path d="M24 36 120 104 216 36" fill="var(--indigo-tint)"/>
    <path d="M24 186 92 112M216 186 148 112" stroke-dasharray="10 7"/>`,
  carton: svg`<path d="M40 84H200V194H40Z" fill="var(--indigo-pale)"/><path d="M40 84 14 46H100L120 84Z" fill="var(--indigo-tint)"/>
    <path d="M200 84 226 46H140L120 84Z" fill="var(--indigo-tint)"/><path d="M120 84V194" stroke-dasharray="10 7"/>`,
};

/** The kind of container, open, with the block about to go in; its name stands beside it. */
export function containerPicture(type: ContainerType, closed = false): TemplateResult {
  return html`<svg
    viewBox="0 0 240 210"
    class="container-picture"
    aria-hidden="true"
    data-container-type=${type}
    style="flex:none;width:200px;height:auto;max-width:30%"
  >
    <g stroke="var(--ink)" stroke-width="3.5" fill="none" stroke-linejoin="round">${PICTURES[type]}</g>
    ${
      closed
        ? svg`<path d="M60 110 180 150M60 150 180 110" stroke="var(--indigo)" stroke-width="8" stroke-linecap="round" stroke-dasharray="22 14"/>`
        : svg`<path d="M120 64V132" stroke="var(--indigo)" stroke-width="8" stroke-linecap="round"/><path d="M102 122 120 156 138 122Z" fill="var(--indigo)"/>`
    }
  </svg>`;
}
