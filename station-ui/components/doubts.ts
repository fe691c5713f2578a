import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatMoney } from '#shared/units/money.ts';
import type { PlanDoubt } from '#shared/wire/views.ts';
import type { Language } from '#shared/words/language.ts';
import { dayWords } from '../i18n/time.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { shape } from './shapes.ts';

/** What is not sure about the plan, a line each. */
@customElement('bf-doubts')
export class Doubts extends LitElement {
  @property({ attribute: false }) doubts: readonly PlanDoubt[] = [];
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    return html`<ul aria-label=${this.words.bench.doubts.heading}>
      ${this.doubts.map(
        (doubt) => html`<li data-doubt=${doubt.about}>${shape('attention', 24)}<span>${this.said(doubt)}</span></li>`,
      )}
    </ul>`;
  }

  private said(doubt: PlanDoubt): string {
    const { doubts } = this.words.bench;
    switch (doubt.about) {
      case 'assumed':
        return doubts.assumed(doubt.what, doubt.weighed);
      case 'not-proven':
        return doubts.notProven(formatMoney(doubt.dearer, this.language), formatMoney(doubt.least, this.language));
      case 'promise':
        return doubt.arriveBy === null
          ? doubts.service(doubt.service?.[this.language] ?? '')
          : doubts.arriveBy(dayWords(doubt.arriveBy, this.language));
    }
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
      }
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
      }
      li {
        display: flex;
        gap: 8px;
        align-items: flex-start;
        font-size: var(--size-small, 20px);
        line-height: 1.2;
        margin-top: 6px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-doubts': Doubts;
  }
}
