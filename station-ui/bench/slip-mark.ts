import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { BenchView } from '#shared/wire/views.ts';
import { shape } from '../components/shapes.ts';
import type { Standing } from '../components/shapes.ts';
import type { Words } from '../i18n/words.ts';

const STANDING: Readonly<Record<BenchView['slip'], Standing>> = {
  none: 'waiting',
  queued: 'current',
  printed: 'well',
  failed: 'stop',
  unknown: 'attention',
};

/** How this parcel's slip stands. */
export function slipMark(slip: BenchView['slip'], words: Words): TemplateResult {
  return html`<p class="say" data-slip=${slip} style="display:flex;gap:14px;align-items:center">
    ${shape(STANDING[slip], 36)} <b>${words.bench.slip[slip]}</b>
  </p>`;
}
