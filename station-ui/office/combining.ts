import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { formatMoney } from '#shared/units/money.ts';
import type { CombinedOrders, CombineProposal, CombiningView } from '#shared/wire/combining.ts';
import { shape } from '../components/shapes.ts';
import { ReadAgain } from '../components/read-again.ts';
import { combiningWords, type CombiningWords } from '../i18n/combining.ts';
import { wordsOf } from '../i18n/language.ts';
import { ask } from './api.ts';
import { foldedAwayStyles } from './folded-away-styles.ts';
import { PageElement, sent } from './page-element.ts';

/** Orders come in and are packed meanwhile; plans are made anew only for those that changed. */
const READ_AGAIN_MS = 30_000;

/** Orders of one buyer to one address: proposed as one, and what was made one. Nothing where there are none. */
@customElement('bf-combining')
export class Combining extends PageElement {
  @state() private view: CombiningView | null = null;
  @state() private said = '';
  @state() private busy = false;

  constructor() {
    super();
    new ReadAgain(this, READ_AGAIN_MS, () => void this.read());
  }

  override render(): TemplateResult {
    const words = combiningWords[this.language];
    const { proposals = [], taken = [] } = this.view ?? {};
    return html`${this.alert()}
      <p role="status" class="said">${this.said}</p>
      ${
        proposals.length === 0
          ? null
          : html`<details ?open=${proposals.length <= 3}>
              <summary data-combining=${proposals.length}>
                <span class="said">${shape('current', 22)} <b>${words.title(proposals.length)}</b></span>
              </summary>
              <p class="hint">${words.how}</p>
              ${this.proposals(proposals, words)}
            </details>`
      }
      ${
        taken.length === 0
          ? null
          : html`<details>
              <summary data-combined=${taken.length}>
                <span class="said">${shape('well', 22)} <b>${words.taken(taken.length)}</b></span>
              </summary>
              ${taken.map((each) => this.taken(each, words))}
            </details>`
      }`;
  }

  private proposals(proposals: readonly CombineProposal[], words: CombiningWords): TemplateResult {
    const { columns } = words;
    const titles = [columns.orders, columns.buyer, columns.pieces, columns.apart, columns.together, columns.saves];
    return html`<div class="scroll" tabindex="0" role="group" aria-label=${words.title(proposals.length)}>
      <table>
        <thead>
          <tr>
            ${titles.map((title) => html`<th class="plain" scope="col">${title}</th>`)}
            <td></td>
          </tr>
        </thead>
        <tbody>
          ${proposals.map((proposal) => this.proposal(proposal, words))}
        </tbody>
      </table>
    </div>`;
  }

  private proposal(proposal: CombineProposal, words: CombiningWords): TemplateResult {
    const orders = proposal.orders.map(({ id }) => id);
    const named = orders.join(', ');
    return html`<tr data-orders=${orders.join('+')}>
      <th class="plain" scope="row">${named}</th>
      <td>${proposal.buyer}<span class="line small">${proposal.lines.join(', ')}</span></td>
      <td>${proposal.orders.reduce((sum, { pieces }) => sum + pieces, 0)}</td>
      <td>
        ${formatMoney(proposal.apart, this.language)}<span class="line small"
          >${words.parcels(proposal.parcelsApart)}</span
        >
      </td>
      <td>
        ${formatMoney(proposal.together, this.language)}<span class="line small"
          >${words.parcels(proposal.parcelsTogether)}</span
        >
      </td>
      <td><b data-saves>${formatMoney(proposal.saves, this.language)}</b></td>
      <td>
        <div class="both">
          <button
            type="button"
            class="main"
            ?disabled=${this.busy}
            aria-label=${words.takeFor(named)}
            @click=${() => this.change('/api/combining', { orders }, words.took(orders.join('+')))}
          >
            ${words.take}
          </button>
          <button
            type="button"
            ?disabled=${this.busy}
            aria-label=${words.declineFor(named)}
            @click=${() => this.change('/api/combining/decline', { orders }, words.declined(named))}
          >
            ${words.decline}
          </button>
        </div>
      </td>
    </tr>`;
  }

  private taken({ id, orders, buyer, state: each }: CombinedOrders, words: CombiningWords): TemplateResult {
    const path = `/api/combining/${encodeURIComponent(id)}/part`;
    const waits = each === 'open' || each === 'set-aside';
    return html`<p class="taken" data-combined-order=${id}>
      <b>${id}</b> ${buyer} · ${wordsOf(this.language).office.states[each]}
      ${
        waits
          ? html`<button
              type="button"
              ?disabled=${this.busy}
              aria-label=${words.partFor(id)}
              @click=${() => this.change(path, {}, words.parted(orders.join(', ')))}
            >
              ${words.part}
            </button>`
          : null
      }
    </p>`;
  }

  private read(): Promise<boolean> {
    return this.attempt(async () => {
      this.view = await ask<CombiningView>('/api/combining');
    });
  }

  private async change(path: string, body: object, said: string): Promise<void> {
    this.busy = true;
    const done = await this.attempt(async () => {
      this.view = await ask<CombiningView>(path, sent(body));
    });
    this.busy = false;
    this.said = done ? said : '';
    if (done) this.dispatchEvent(new CustomEvent('bf-imported', { bubbles: true, composed: true }));
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    foldedAwayStyles,
    css`
      .small {
        color: var(--walnut);
      }
      .both,
      .taken {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 12px;
        align-items: center;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-combining': Combining;
  }
}
