import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Notice } from '#shared/run/types.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType, striped } from '../theme/styles.ts';
import { shape } from './shapes.ts';

/** What the station says about the last input: a shape, a pattern and the words. */
@customElement('bf-notice-bar')
export class NoticeBar extends LitElement {
  @property({ attribute: false }) notice: Notice | null = null;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    const { notice } = this;
    return html`<div role=${notice?.tone === 'stop' ? 'alert' : 'status'}>
      ${
        notice === null
          ? null
          : html`<p
              class=${`say ${notice.tone} ${notice.tone === 'attention' ? 'striped' : ''}`}
              data-notice=${notice.code}
            >
              ${shape(notice.tone, 36)}<span>${this.words.notices[notice.code](notice.values)}</span>
            </p>`
      }
    </div>`;
  }

  static override styles = [
    base,
    benchType,
    striped,
    css`
      :host {
        display: block;
      }
      p {
        display: flex;
        align-items: center;
        gap: 14px;
        padding: 8px 16px;
        font-weight: 700;
      }
      .well {
        color: var(--verdigris);
        border-left: 8px solid var(--verdigris);
        padding-left: 14px;
      }
      .striped span {
        background: var(--weld);
        padding: 0 8px;
      }
      .stop {
        color: var(--madder);
        border: 4px solid var(--madder);
        border-right: 4px dashed var(--madder);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-notice-bar': NoticeBar;
  }
}
