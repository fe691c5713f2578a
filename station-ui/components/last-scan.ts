import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '#shared/wire/views.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';

/** What was scanned last, and how many inputs still wait for the server. */
@customElement('bf-last-scan')
export class LastScan extends LitElement {
  @property({ attribute: false }) scan: BenchView['lastScan'] = null;
  @property({ type: Number }) waiting = 0;
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    return html`<p class="small secondary">
      ${this.waiting > 0 ? html`<b class="waiting" data-waiting=${this.waiting}>${this.words.bench.sending(this.waiting)}</b>` : null}
      ${this.scan === null ? null : html`<span><span class="what">${this.words.bench.lastScan}: </span>“${readable(this.scan.text)}”</span>`}
    </p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      p {
        white-space: nowrap;
        overflow: hidden;
        text-overflow: ellipsis;
      }
      /* Beside all the switches there is room for the code alone. */
      @media (max-width: 1400px) {
        .what {
          position: absolute;
          width: 1px;
          height: 1px;
          overflow: hidden;
          clip-path: inset(50%);
        }
      }
      .waiting {
        color: var(--on-weld);
        background: repeating-linear-gradient(-45deg, var(--weld) 0 10px, var(--weld-pale) 10px 20px);
        border: 2px solid var(--on-weld);
        padding: 2px 10px;
        margin-right: 10px;
      }
    `,
  ];
}

/**
 * A code may hold control characters, such as GS1's separator, which have no picture, and begins with what kind of code it
 * is where the scanner says so (ISO/IEC 15424, "]C1"), which tells a packer nothing.
 */
export function readable(text: string): string {
  return text.replace(/^\][A-Za-z][0-9A-Za-z]/, '').replace(/\p{Cc}/gu, ' ');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-last-scan': LastScan;
  }
}
