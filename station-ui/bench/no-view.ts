import './door.ts';
import type { Language } from '#shared/words/language.ts';
import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { shape } from '../components/shapes.ts';
import type { Words } from '../i18n/words.ts';
import type { StationState } from './station.ts';

/** Nobody is signed in; or the server said nothing yet: it is looked for, it is away, or it does not know this bench. */
export function noView(
  { bench }: Words,
  shown: StationState | null,
  id: string,
  language: Language,
  paired: () => void,
  camera: TemplateResult | null,
): TemplateResult {
  const link = shown?.link ?? 'connecting';
  if (shown?.door === 'shut' && link !== 'lost') {
    return html`<bf-bench-door .bench=${id} .language=${language} @bf-paired=${paired}>${camera}</bf-bench-door>`;
  }
  const said = link === 'refused' ? bench.unknownBench : link === 'lost' ? bench.linkLost : bench.connecting;
  return html`<main class="empty">
    <h1 class="instruction" role="status">${shape('stop', 64)} ${said}</h1>
    ${link === 'lost' ? html`<p class="say" data-away>${bench.serverAway}</p>` : null}
  </main>`;
}
