import { LitElement, css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { OrderState } from '#shared/planning/types.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { cancellingWords } from '../i18n/cancelling.ts';
import { tableWords } from '../i18n/table.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError, ask } from './api.ts';
import { officeStyles } from './office-styles.ts';

/** Cancels an order that waits, asked twice, or lets a cancelled one wait again; nothing for any other. */
@customElement('bf-cancel-order')
export class CancelOrder extends LitElement {
  @property({ attribute: false }) order = '';
  @property({ attribute: false }) standing: OrderState = 'open';
  @property({ attribute: false }) language: Language = 'en';
  @state() private asking = false;
  @state() private failure = '';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('order') && !changed.has('standing')) return;
    this.asking = false;
    this.failure = '';
  }

  override render(): TemplateResult | null {
    const words = cancellingWords[this.language];
    const failed =
      this.failure === '' ? null : html`<p class="said" role="alert">${shape('stop', 22)} ${this.failure}</p>`;
    if (this.standing === 'cancelled') {
      return html`${failed}<button type="button" data-reopen=${this.order} @click=${() => this.send('reopen')}>
          ${words.reopen}
        </button>`;
    }
    if (this.standing === 'packing')
      return html`<p class="hint" data-in-hand><a href="#day">${words.cancel}</a>: ${words.failures['in-hand']}</p>`;
    if (this.standing !== 'open' && this.standing !== 'set-aside') return null;
    if (!this.asking) {
      return html`${failed}<button type="button" data-cancel=${this.order} @click=${() => (this.asking = true)}>
          ${words.cancel}
        </button>`;
    }
    return html`<p role="status">${words.really(this.order)}</p>
      <p class="both">
        <button type="button" class="main" data-really=${this.order} @click=${() => this.send('cancel')}>
          ${words.cancel}
        </button>
        <button type="button" @click=${() => (this.asking = false)}>${words.keep}</button>
      </p>`;
  }

  private async send(what: 'cancel' | 'reopen'): Promise<void> {
    this.failure = '';
    try {
      await ask(`/api/orders/${encodeURIComponent(this.order)}/${what}`, { method: 'POST' });
      this.dispatchEvent(new CustomEvent('bf-order-changed', { bubbles: true, composed: true }));
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = tableWords[this.language];
      this.failure =
        cancellingWords[this.language].failures[error.code] ?? words.failed(error.message || words.noServer);
    }
    this.asking = false;
  }

  static override styles = [
    base,
    officeStyles,
    css`
      .both {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-cancel-order': CancelOrder;
  }
}
