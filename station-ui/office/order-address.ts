import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { importText } from '#shared/imports/problems-in-spanish.ts';
import { ADDRESS_FIELDS, type AddressField, type AddressStored } from '#shared/wire/addresses.ts';
import type { OrderDetail } from '#shared/wire/search.ts';
import { shape } from '../components/shapes.ts';
import { doubtsInWords } from '../i18n/addresses.ts';
import { orderAddressWords } from '../i18n/order-address.ts';
import { tableWords } from '../i18n/table.ts';
import { ask, OfficeRequestError } from './api.ts';
import { PageElement, sent } from './page-element.ts';

/** Where an order that waits goes, to be changed; nothing for any other. */
@customElement('bf-order-address')
export class OrderAddress extends PageElement {
  @property({ attribute: false }) detail!: OrderDetail;
  @state() private editing = false;
  @state() private answer: AddressStored | null = null;

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('detail');
    if (before === undefined || before.id === this.detail.id) return;
    this.editing = false;
    this.answer = null;
  }

  override render(): TemplateResult | null {
    const { state: standing, parcels } = this.detail;
    const may = (standing === 'open' || standing === 'set-aside') && parcels.length === 0;
    return html`${this.told()} ${this.alert()} ${may ? (this.editing ? this.form() : this.opener()) : null}`;
  }

  private told(): TemplateResult | null {
    const { answer } = this;
    if (answer?.stored !== true) return null;
    const words = orderAddressWords[this.language];
    const doubts = doubtsInWords(answer.doubts, this.language);
    if (doubts.length === 0) return html`<p class="said" role="status">${shape('well', 22)} ${words.stored}</p>`;
    return html`<p class="said" role="status">${shape('attention', 22)} ${words.toAsk} ${doubts.join('; ')}</p>`;
  }

  private opener(): TemplateResult {
    return html`<button type="button" data-address="open" @click=${this.open}>
      ${orderAddressWords[this.language].open}
    </button>`;
  }

  private form(): TemplateResult {
    const words = orderAddressWords[this.language];
    return html`<form aria-label=${words.title} data-address="form" @submit=${this.submit}>
      ${ADDRESS_FIELDS.map((field) => this.field(field))}
      <div class="tools">
        <button type="submit" class="main" data-address="store">${words.store}</button>
        <button type="button" @click=${() => (this.editing = false)}>${words.keep}</button>
      </div>
    </form>`;
  }

  private field(field: AddressField): TemplateResult {
    const words = orderAddressWords[this.language];
    const { detail } = this;
    const refused = (this.answer?.refused ?? []).filter((each) => each.field === field);
    const hint = words.hints[field];
    const told = [...(hint === undefined ? [] : [`hint-${field}`]), ...(refused.length === 0 ? [] : [`no-${field}`])];
    const value = { name: detail.buyer, postcode: detail.postcode, country: detail.country };
    const common = { describedBy: told.join(' '), invalid: refused.length > 0 ? 'true' : 'false' };
    return html`<div class="field">
      <label for=${field}>${words.fields[field]}</label>
      ${
        field === 'lines'
          ? html`<textarea
              id=${field}
              name=${field}
              rows="4"
              maxlength="1000"
              aria-describedby=${common.describedBy}
              aria-invalid=${common.invalid}
              .value=${detail.address.join('\n')}
            ></textarea>`
          : html`<input
              id=${field}
              name=${field}
              maxlength="200"
              autocomplete="off"
              aria-describedby=${common.describedBy}
              aria-invalid=${common.invalid}
              .value=${value[field]}
            />`
      }
      ${hint === undefined ? null : html`<span class="hint" id=${`hint-${field}`}>${hint}</span>`}
      ${
        refused.length === 0
          ? null
          : html`<span class="said failure" id=${`no-${field}`} role="alert"
              >${shape('stop', 20)}
              ${refused.map(({ expected, found }) => words.refused(importText(expected, this.language), importText(found, this.language))).join('; ')}</span
            >`
      }
    </div>`;
  }

  private readonly open = (): void => {
    this.answer = null;
    this.failure = '';
    this.editing = true;
  };

  private readonly submit = (event: SubmitEvent): void => {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const text = (field: AddressField): string => {
      const value = data.get(field);
      return typeof value === 'string' ? value : '';
    };
    const lines = text('lines').split(/\r\n?|\n/);
    void this.send({ name: text('name'), lines, postcode: text('postcode'), country: text('country') });
  };

  private async send(given: unknown): Promise<void> {
    this.failure = '';
    try {
      const path = `/api/orders/${encodeURIComponent(this.detail.id)}/address`;
      this.answer = await ask<AddressStored>(path, sent(given));
      if (!this.answer.stored) return;
      this.editing = false;
      this.dispatchEvent(new CustomEvent('bf-order-changed', { bubbles: true, composed: true }));
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = tableWords[this.language];
      const known = orderAddressWords[this.language].failures[error.code];
      this.failure = known ?? words.failed(error.message === '' ? words.noServer : error.message);
    }
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      :host {
        justify-items: start;
        gap: 8px;
      }
      form {
        display: grid;
        gap: 12px;
        width: min(100%, 560px);
        font-size: 16px;
      }
      .field {
        display: grid;
        gap: 4px;
      }
      label {
        font-weight: 700;
      }
      input,
      textarea {
        width: 100%;
        min-height: 44px;
        padding: 8px 10px;
        color: inherit;
        font: inherit;
        background: var(--chalk);
        border: 2px solid var(--walnut);
        border-radius: 0;
      }
      .field [aria-invalid='true'][name] {
        border-color: var(--madder);
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-order-address': OrderAddress;
  }
}
