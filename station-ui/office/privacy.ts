import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { BuyerPurged, BuyerView, PrivacyView } from '#shared/wire/privacy.ts';
import { privacyWords } from '../i18n/privacy.ts';
import { ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

export const privacyApi = {
  view: () => ask<PrivacyView>('/api/privacy'),
  buyer: (name: string) => ask<BuyerView>(`/api/privacy/buyer?${new URLSearchParams({ name }).toString()}`),
  purge: (buyer: string) => ask<BuyerPurged>('/api/privacy/purge', sent({ buyer })),
} as const;

/** What is kept of people, and one buyer's data handed out or taken out of everything. */
@customElement('bf-privacy')
export class Privacy extends PageElement {
  @property({ attribute: false }) api: typeof privacyApi = privacyApi;
  @state() private view: PrivacyView | null = null;
  @state() private name = '';
  @state() private found: BuyerView | null = null;
  @state() private asked = false;
  @state() private said = '';

  constructor() {
    super();
    this.readFirst(async () => {
      this.view = await this.api.view();
    });
  }

  override render(): TemplateResult {
    const words = privacyWords[this.language];
    return html`<section class="seamed">
      <h3>${words.title}</h3>
      ${this.alert()}
      <p role="status">${this.said}</p>
      <form class="tools" @submit=${this.look}>
        <label
          ><span>${words.one}: ${words.name}</span>
          <input
            name="buyer"
            required
            maxlength="500"
            autocomplete="off"
            .value=${this.name}
            @input=${(event: Event) => (this.name = (event.target as HTMLInputElement).value)}
        /></label>
        <button type="submit">${words.look}</button>
        <p class="hint">${words.oneHow}</p>
      </form>
      ${this.found === null ? null : this.one(this.found)} ${this.view === null ? null : this.table(this.view)}
    </section>`;
  }

  private one({ buyer, orders }: BuyerView): TemplateResult {
    const words = privacyWords[this.language];
    const query = new URLSearchParams({ name: buyer }).toString();
    return html`<div class="tools" data-buyer>
      <p><b>${buyer}</b>: ${words.found(orders.map(({ id }) => id))}</p>
      <a class="button" download href=${`/api/privacy/buyer.zip?${query}`}>${words.handOut}</a>
      ${
        this.asked
          ? html`<p role="alert">${words.sure(buyer)}</p>
              <button type="button" data-do="purge" @click=${() => void this.purge(buyer)}>${words.really}</button>
              <button type="button" @click=${() => (this.asked = false)}>${words.keep}</button>`
          : html`<button type="button" data-do="ask-purge" @click=${() => (this.asked = true)}>${words.remove}</button>`
      }
    </div>`;
  }

  private table({ kept, buyersDays }: PrivacyView): TemplateResult {
    const words = privacyWords[this.language];
    const { columns } = words;
    return html`<p class="hint">${words.how} ${words.byAge(buyersDays)}</p>
      <div class="scroll" tabindex="0" role="region" aria-label=${words.title}>
        <table>
          <thead>
            <tr>
              ${[columns.whose, columns.what, columns.where, columns.until].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${kept.map(
              ({ table, columns: named, whose, what, until }) =>
                html`<tr>
                  <td>${words.whose[whose]}</td>
                  <td>${what[this.language]}</td>
                  <td><code>${table}: ${named.join(', ')}</code></td>
                  <td>${until[this.language]}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>`;
  }

  private readonly look = (event: Event): void => {
    event.preventDefault();
    this.asked = false;
    this.said = '';
    this.found = null;
    void this.attempt(async () => {
      this.found = await this.api.buyer(this.name);
    });
  };

  private async purge(buyer: string): Promise<void> {
    this.asked = false;
    await this.attempt(async () => {
      const { orders, bytesLeft } = await this.api.purge(buyer);
      const words = privacyWords[this.language];
      this.said = `${words.removed(orders.length)} ${words.bytesLeft[bytesLeft]}`.trim();
      this.found = null;
      this.name = '';
      window.dispatchEvent(new Event('bf-noted'));
    });
  }

  static override styles = [
    ...PageElement.styles,
    css`
      section {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 14px;
      }
      [role='status']:empty {
        margin-bottom: -14px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-privacy': Privacy;
  }
}
