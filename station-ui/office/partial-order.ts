import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { OrderDetail } from '#shared/wire/search.ts';
import { shape } from '../components/shapes.ts';
import { partialWords } from '../i18n/partial.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask, OfficeRequestError } from './api.ts';
import { PageElement, sent } from './page-element.ts';

/** An order that is sent in part: what it goes without and where that follows, and the way to do so. */
@customElement('bf-partial-order')
export class PartialOrder extends PageElement {
  @property({ attribute: false }) detail!: OrderDetail;
  @state() private asking = false;
  @state() private without: ReadonlySet<string> = new Set();
  @state() private follow = true;

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('detail');
    if (before?.id !== this.detail.id || before.state !== this.detail.state) this.leave(changed);
  }

  private leave(changed: PropertyValues<this>): void {
    if (!changed.has('detail')) return;
    this.asking = false;
    this.without = new Set();
    this.follow = true;
  }

  override render(): TemplateResult {
    const words = partialWords[this.language];
    const { detail } = this;
    return html`${detail.leftOut.map(({ sku, follows, by, at }) => {
      const when = dayAndTime(new Date(at).toISOString(), this.language, {
        now: new Date(),
        timeZone: detail.timeZone,
      });
      return html`<p class="said" data-left-out=${sku}>
        ${shape('attention', 22)}
        <span
          >${words.goesWithout(sku, by ?? '', when)}
          ${follows === null ? words.comesNot : html`${words.inOrder} <a href=${`#order/${encodeURIComponent(follows)}`}>${follows}</a>.`}</span
        >
      </p>`;
    })}
    ${
      detail.restOf === null
        ? null
        : html`<p class="said" data-rest-of=${detail.restOf}>
            ${shape('waiting', 22)}
            <span
              >${words.restOf} <a href=${`#order/${encodeURIComponent(detail.restOf)}`}>${detail.restOf}</a>.
              ${detail.state === 'set-aside' ? words.waitsForPiece : null}</span
            >
          </p>`
    }
    ${this.alert()}
    ${
      detail.restOf !== null && detail.state === 'set-aside'
        ? html`<button type="button" data-partial="here" @click=${() => this.send('rest-here', {})}>
            ${words.isHere}
          </button>`
        : null
    }
    ${this.mayDivide() ? (this.asking ? this.form() : this.opener()) : null}`;
  }

  private mayDivide(): boolean {
    const { state: standing, lines, parcels } = this.detail;
    return (standing === 'open' || standing === 'set-aside') && lines.length > 1 && parcels.length === 0;
  }

  private opener(): TemplateResult {
    return html`<button type="button" data-partial="open" @click=${() => (this.asking = true)}>
      ${partialWords[this.language].open}
    </button>`;
  }

  private form(): TemplateResult {
    const words = partialWords[this.language];
    const { lines } = this.detail;
    const left = lines.length - this.without.size;
    return html`<form @submit=${this.submit}>
      <fieldset>
        <legend>${words.which}</legend>
        ${lines.map(
          ({ sku, title }) =>
            html`<label
              ><input
                type="checkbox"
                name="without"
                value=${sku}
                .checked=${this.without.has(sku)}
                @change=${() => this.toggle(sku)}
              />
              <b>${sku}</b> ${title}</label
            >`,
        )}
      </fieldset>
      <fieldset>
        <legend>${words.then}</legend>
        ${[true, false].map(
          (follow) =>
            html`<label
              ><input
                type="radio"
                name="then"
                .checked=${this.follow === follow}
                @change=${() => (this.follow = follow)}
              />
              ${follow ? words.follows : words.dropped}</label
            >`,
        )}
      </fieldset>
      <div class="tools">
        <button type="submit" class="main" data-partial="send" ?disabled=${this.without.size === 0 || left === 0}>
          ${words.send(left)}
        </button>
        <button type="button" @click=${() => (this.asking = false)}>${words.keep}</button>
      </div>
    </form>`;
  }

  private toggle(sku: string): void {
    const without = new Set(this.without);
    if (!without.delete(sku)) without.add(sku);
    this.without = without;
  }

  private readonly submit = (event: Event): void => {
    event.preventDefault();
    void this.send('leave-out', { skus: [...this.without], follow: this.follow });
  };

  private async send(what: 'leave-out' | 'rest-here', body: unknown): Promise<void> {
    this.failure = '';
    try {
      await ask(`/api/orders/${encodeURIComponent(this.detail.id)}/${what}`, sent(body));
      this.asking = false;
      this.dispatchEvent(new CustomEvent('bf-order-changed', { bubbles: true, composed: true }));
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = tableWords[this.language];
      this.failure = partialWords[this.language].failures[error.code] ?? words.failed(error.message || words.noServer);
    }
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      :host {
        justify-items: start;
        gap: 8px;
      }
      a {
        color: inherit;
      }
      form,
      fieldset {
        display: grid;
        gap: 6px;
      }
      form {
        gap: 12px;
      }
      fieldset {
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0;
        font-weight: 700;
      }
      label {
        display: flex;
        gap: 10px;
        align-items: center;
        min-height: 44px;
      }
      label input {
        width: 20px;
        height: 20px;
        accent-color: var(--indigo);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-partial-order': PartialOrder;
  }
}
