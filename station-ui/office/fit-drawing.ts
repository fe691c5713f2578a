import { html, svg } from 'lit';
import type { SVGTemplateResult, TemplateResult } from 'lit';
import type { ContainerFitView } from '#shared/wire/fits.ts';
import type { FitsWords } from '../i18n/fits.ts';
import { fitPicture, type Rectangle } from './fit-geometry.ts';

/** Pixels for a millimetre, the same for every container of the page. */
const SCALE = 0.44;
const MARGIN = 6;

function box({ x, y, width, height }: Rectangle, name: string): SVGTemplateResult {
  return svg`<rect class=${name} x=${x} y=${y} width=${width} height=${height} />`;
}

/** A container with the folded pieces in it, from above and from the side, to scale. */
export function fitDrawing(view: ContainerFitView, label: string, words: FitsWords): TemplateResult {
  const { above, side, width, height } = fitPicture(view);
  const edge = Math.min(0, above.stack.y);
  const bounds = [-MARGIN, edge - MARGIN - 34, width + 2 * MARGIN, height - edge + 2 * MARGIN + 34];
  return html`<svg
    role="img"
    aria-label=${label}
    viewBox=${bounds.join(' ')}
    width=${Math.round((bounds[2] ?? 0) * SCALE)}
    height=${Math.round((bounds[3] ?? 0) * SCALE)}
    class=${view.fit.verdict}
  >
    <text x="0" y=${edge - 9}>${words.above}</text>
    ${box(above.inside, 'inside')} ${box(above.closing, 'closing')} ${box(above.stack, 'stack')}
    ${box(above.room, 'room')}
    <text x="0" y=${Math.min(side.room.y, side.stack.y) - 9}>${words.side}</text>
    ${view.type === 'carton' ? box(side.room, 'inside') : null} ${box(side.stack, 'stack')} ${box(side.room, 'room')}
  </svg>`;
}
