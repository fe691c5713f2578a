import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { knownCautions } from '../i18n/language.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { shape } from './shapes.ts';

/** The usual cautions, where they apply. An id without words here shows nothing. */
@customElement('bf-cautions')
export class Cautions extends LitElement {
  @property({ attribute: false }) ids: readonly string[] = [];
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult | null {
    const known = knownCautions(this.ids);
    if (known.length === 0) return null;
    return html`<ul>
        ${known.map((id) => {
          const caution = this.words.cautions[id];
          return html`<li data-caution=${id}>
            ${shape('attention', 44)}
            <div>
              <p class="say"><b>${caution.heading}</b></p>
              <p class="small">${caution.text}</p>
            </div>
          </li>`;
        })}
      </ul>
      <p class="small secondary">${this.words.bench.cautionSource}</p>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      ul {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 380px), 1fr));
        gap: 12px;
        margin-bottom: 8px;
      }
      li {
        display: flex;
        gap: 16px;
        align-items: center;
        min-width: 0;
        border: 3px solid var(--ink);
        border-left: 16px solid;
        border-image: repeating-linear-gradient(-45deg, var(--weld) 0 8px, var(--on-weld) 8px 12px) 16;
        padding: 8px 16px;
      }
      /* Two side by side break into many lines: where there is little height each has the whole width. */
      @container task (max-height: 500px) {
        ul:has(li + li) {
          grid-template-columns: 1fr;
          gap: 6px;
          margin-bottom: 2px;
        }
        li + li,
        li:has(+ li) {
          padding: 2px 12px;
          gap: 12px;
        }
        li + li .say,
        li:has(+ li) .say {
          font-size: 24px;
          line-height: 1.1;
        }
        li + li .small,
        li:has(+ li) .small {
          line-height: 1.15;
        }
      }
      @container task (max-height: 300px) {
        li:has(+ li) p,
        li + li p {
          display: inline;
        }
        li:has(+ li) .say,
        li + li .say {
          font-size: 22px;
        }
        li:has(+ li),
        li + li {
          line-height: 1.1;
        }
      }
      @container task (max-height: 240px) {
        p {
          font-size: 20px;
        }
        li {
          padding: 0 10px;
        }
      }
      @container task (max-height: 430px) {
        li {
          padding: 3px 12px;
          gap: 10px;
        }
        ul {
          gap: 8px;
          margin-bottom: 2px;
        }
        .say {
          font-size: 24px;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-cautions': Cautions;
  }
}
