import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { quantitiesIn } from '#shared/units/decimal-mark.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { Language } from '#shared/words/language.ts';
import type { PriceDifference } from '#shared/wire/rates.ts';
import { shape } from '../components/shapes.ts';
import type { RatesWords } from '../i18n/rates-words.ts';
import { base } from '../theme/styles.ts';
import { officeStyles } from './office-styles.ts';
import { ratesStyles } from './rates-styles.ts';

/** What goes up and down, per bracket and zone, and what that means for the parcels that were sent. */
@customElement('bf-rates-difference')
export class RatesDifference extends LitElement {
  @property({ attribute: false }) difference!: PriceDifference;
  @property({ attribute: false }) currency = '';
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) words!: RatesWords;

  override render(): TemplateResult {
    const { words, difference } = this;
    const { changes, unchanged, sent } = difference;
    const by = changes.map(({ before, after }) => (before === null || after === null ? 0 : after - before));
    const up = by.filter((each) => each > 0).length;
    const down = by.filter((each) => each < 0).length;
    const rows = [...new Set(changes.map(({ row }) => row))];
    const zones = [...new Set(changes.map(({ zone }) => zone))];
    return html`<h3>${words.difference(difference.before, difference.after)}</h3>
      <p class="said" data-difference="sent">
        ${shape(sent.after > sent.before ? 'attention' : 'well', 20)}
        ${sent.parcels + sent.left === 0 ? words.noneSent : words.sent(sent, (minor) => this.amount(minor))}
      </p>
      ${difference.otherRule ? html`<p>${words.otherRule}</p>` : html`<p>${words.sumUp(up, down, unchanged)}</p>`}
      ${
        changes.length === 0
          ? null
          : html`<div
              class="scroll"
              tabindex="0"
              role="region"
              aria-label=${words.difference(difference.before, difference.after)}
            >
              <table data-table="difference">
                <thead>
                  <tr>
                    <th class="plain" scope="col">${words.rows['weight-bracket']}</th>
                    ${zones.map(
                      (zone) =>
                        html`<th class="plain amount" scope="col">
                          ${zone === null ? words.everyZone : words.zone(zone)}
                        </th>`,
                    )}
                  </tr>
                </thead>
                <tbody>
                  ${rows.map(
                    (row) =>
                      html`<tr>
                        <th scope="row">${quantitiesIn(row, this.language)}</th>
                        ${zones.map((zone) => this.cell(changes.find((each) => each.row === row && each.zone === zone)))}
                      </tr>`,
                  )}
                </tbody>
              </table>
            </div>`
      }`;
  }

  private cell(change: PriceDifference['changes'][number] | undefined): TemplateResult {
    const { words } = this;
    if (change === undefined) return html`<td class="amount">=</td>`;
    const { before, after } = change;
    if (before === null) return html`<td class="amount">${this.amount(after ?? 0)} <b>${words.added}</b></td>`;
    if (after === null) return html`<td class="amount"><del>${this.amount(before)}</del> <b>${words.gone}</b></td>`;
    const by = after - before;
    return html`<td class="amount">
      <b class=${by > 0 ? 'up' : 'down'}>${by > 0 ? '+' : ''}${this.amount(by)}</b><br /><span class="now"
        >${this.amount(after)}</span
      >
    </td>`;
  }

  private amount(minor: number): string {
    return formatMoney(money(minor, this.currency), this.language);
  }

  static override styles = [
    base,
    officeStyles,
    ratesStyles,
    css`
      .up {
        color: var(--madder);
      }
      .down {
        color: var(--verdigris);
      }
      .now {
        color: var(--walnut);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-rates-difference': RatesDifference;
  }
}
