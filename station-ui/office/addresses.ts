import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { DoubtfulAddress } from '#shared/wire/addresses.ts';
import { shape } from '../components/shapes.ts';
import { ReadAgain } from '../components/read-again.ts';
import { addressWords, doubtsInWords } from '../i18n/addresses.ts';
import { ask } from './api.ts';
import { foldedAwayStyles } from './folded-away-styles.ts';
import { PageElement, sent } from './page-element.ts';

/** Addresses change while orders come in and are packed. */
const READ_AGAIN_MS = 20_000;

/** Orders that wait and whose address looks incomplete or wrong; nothing where all look well. */
@customElement('bf-addresses')
export class Addresses extends PageElement {
  @state() private rows: readonly DoubtfulAddress[] = [];
  @state() private said = '';

  constructor() {
    super();
    new ReadAgain(this, READ_AGAIN_MS, () => void this.read());
  }

  override render(): TemplateResult {
    const words = addressWords[this.language];
    const { columns } = words;
    return html`${this.alert()}
      <p role="status" class="said">${this.said}</p>
      ${
        this.rows.length === 0
          ? null
          : html`<details ?open=${this.rows.length <= 5}>
              <summary data-addresses=${this.rows.length}>
                <span class="said">${shape('attention', 22)} <b>${words.title(this.rows.length)}</b></span>
              </summary>
              <p class="hint">${words.how}</p>
              <div class="scroll" tabindex="0" role="group" aria-label=${words.title(this.rows.length)}>
                <table>
                  <thead>
                    <tr>
                      ${[columns.order, columns.buyer, columns.address, columns.doubt].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
                      <td></td>
                    </tr>
                  </thead>
                  <tbody>
                    ${this.rows.map((row) => this.row(row))}
                  </tbody>
                </table>
              </div>
            </details>`
      }`;
  }

  private row(row: DoubtfulAddress): TemplateResult {
    const words = addressWords[this.language];
    const lines = row.lines.length === 0 ? [`${row.postcode} ${row.country}`] : row.lines;
    return html`<tr data-order=${row.order}>
      <th class="plain" scope="row">${row.order}</th>
      <td>${row.buyer}</td>
      <td>${lines.map((line) => html`<span class="line">${line}</span>`)}</td>
      <td>${doubtsInWords(row.doubts, this.language).map((doubt) => html`<span class="line">${doubt}</span>`)}</td>
      <td>
        <button type="button" aria-label=${words.rightFor(row.order)} @click=${() => this.foundRight(row)}>
          ${words.right}
        </button>
      </td>
    </tr>`;
  }

  private read(): Promise<boolean> {
    return this.attempt(async () => {
      this.rows = await ask<readonly DoubtfulAddress[]>('/api/addresses');
    });
  }

  private async foundRight({ order, key }: DoubtfulAddress): Promise<void> {
    const path = `/api/addresses/${encodeURIComponent(order)}/right`;
    const done = await this.attempt(async () => {
      this.rows = await ask<readonly DoubtfulAddress[]>(path, sent({ key }));
    });
    this.said = done ? addressWords[this.language].foundRight(order) : '';
  }

  static override styles = [...[PageElement.styles].flat(), foldedAwayStyles];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-addresses': Addresses;
  }
}
