import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import { dayWords } from '../i18n/day.ts';
import { base } from '../theme/styles.ts';
import { ask, OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';

/** Takes an order from a bench whose tablet has died or whose packer has left; asked twice, since somebody may be at it. */
@customElement('bf-release-order')
export class ReleaseOrder extends LitElement {
  @property() order = '';
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) request: (order: string) => Promise<unknown> = (order) =>
    ask(`/api/orders/${encodeURIComponent(order)}/release`, { method: 'POST' });
  /** the order that is asked about; another one at the bench is another question */
  @state() private asking = '';
  @state() private failed: string | null = null;

  override render(): TemplateResult {
    const words = dayWords[this.language];
    const { order } = this;
    if (this.asking !== order) {
      return html`<button type="button" data-release=${order} @click=${() => this.turn(order)}>
        ${words.release}<span class="only-read"> ${order}</span>
      </button>`;
    }
    return html`<p role="status">
        ${this.failed === null ? words.reallyRelease(order) : words.releaseFailures[reasonOf(this.failed)]}
      </p>
      <p class="both">
        ${
          this.failed === null
            ? html`<button type="button" class="main" data-really=${order} @click=${this.release}>
                ${words.release}
              </button>`
            : null
        }
        <button type="button" @click=${() => this.turn('')}>${words.keep}</button>
      </p>`;
  }

  private turn(order: string): void {
    this.asking = order;
    this.failed = null;
  }

  private readonly release = async (): Promise<void> => {
    try {
      await this.request(this.order);
      this.asking = '';
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.failed = error.code;
    }
  };

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

function reasonOf(code: string): 'not-packing' | 'parcel-finished' | 'other' {
  return code === 'not-packing' || code === 'parcel-finished' ? code : 'other';
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-release-order': ReleaseOrder;
  }
}
