import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { SET_ASIDE_REASONS } from '#shared/run/types.ts';
import type { Words } from '../i18n/words.ts';
import { ask } from '../components/asked.ts';
import { base, benchType } from '../theme/styles.ts';

/** Why the order is set aside; the answer goes out with the command. */
@customElement('bf-reasons')
export class Reasons extends LitElement {
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    return html`<h1 class="instruction">${this.words.bench.whyAside}</h1>
      <div class="reasons">
        ${SET_ASIDE_REASONS.map(
          (reason) =>
            html`<button
              type="button"
              data-reason=${reason}
              @click=${() => {
                ask(this, { command: 'set-aside', reason });
              }}
            >
              ${this.words.reasons[reason]}
            </button>`,
        )}
        <button type="button" class="back" data-reason="none" @click=${this.leave}>
          ${this.words.commands.cancel}
        </button>
      </div>`;
  }

  private readonly leave = (): void => {
    this.dispatchEvent(new CustomEvent('bf-reasons-left', { bubbles: true, composed: true }));
  };

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 20px;
        height: 100%;
      }
      .reasons {
        flex: 1;
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: 16px;
        min-height: 0;
      }
      button {
        min-height: 64px;
        font-size: 32px;
        line-height: 1.1;
        font-weight: 700;
        border: 4px solid var(--ink);
        background: var(--kraft);
        padding: 4px 16px;
        cursor: pointer;
      }
      .back {
        background: var(--chalk);
        font-weight: 400;
      }
      @media (max-height: 680px) {
        :host,
        .reasons {
          gap: 10px;
        }
        .reasons {
          grid-template-columns: repeat(3, 1fr);
        }
        button {
          font-size: 23px;
          padding: 4px 8px;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-reasons': Reasons;
  }
}
