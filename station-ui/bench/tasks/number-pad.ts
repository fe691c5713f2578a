import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Words } from '../../i18n/words.ts';
import { TaskElement, instructionClass } from './task-element.ts';

const PAD = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0'] as const;

/** A label that no scanner reads: its number digit by digit, large enough to be compared with it from where it lies. */
@customElement('bf-number-pad')
export class NumberPad extends TaskElement {
  @property() digits = '';

  override render(): TemplateResult {
    const { numberPad: words } = this.words;
    const { digits } = this;
    return html`<h1 class=${instructionClass(words.heading)}>${words.heading}</h1>
      <div class="fill middle">
        <p class=${digits.length > 16 ? 'digits long' : 'digits'} data-digits=${digits} aria-live="polite">
          ${
            digits === ''
              ? html`<span class="none">${words.none}</span>`
              : html`<span aria-label=${words.soFar(Array.from(digits).join(' '))} role="text"
                  >${inFours(digits).map((four) => html`<b>${four}</b>`)}</span
                >`
          }
        </p>
        <p class="say secondary mend">
          <b data-count>${words.count(digits.length)}</b> · ${digits === '' ? words.how : words.mend}
        </p>
        <div class="pad" role="group" aria-label=${words.pad}>
          ${PAD.map(
            (digit) =>
              html`<button type="button" data-digit=${digit} @click=${() => this.give(digit)}>${digit}</button>`,
          )}
        </div>
      </div>`;
  }

  private give(digit: string): void {
    this.dispatchEvent(new CustomEvent('bf-digit', { detail: digit, bubbles: true, composed: true }));
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .middle {
        gap: 12px;
      }
      .middle {
        overflow: auto;
      }
      .middle > * {
        flex: none;
      }
      .digits {
        min-height: 1.1em;
        padding: 4px 20px 8px;
        border: 5px dashed var(--ink);
        font-size: min(84px, 17cqh, 8.5cqw);
        line-height: 1.1;
      }
      .digits.long {
        font-size: min(52px, 11cqh, 5cqw);
      }
      .digits span {
        display: flex;
        flex-wrap: wrap;
        column-gap: 0.45em;
        font-variant-numeric: tabular-nums;
        letter-spacing: 0.03em;
      }
      .digits .none {
        font-size: min(36px, 8cqh);
        letter-spacing: 0;
      }
      .pad {
        display: grid;
        grid-template-columns: repeat(5, minmax(64px, 1fr));
        gap: 10px;
      }
      button {
        min-height: max(64px, min(92px, 18cqh));
        font-size: 44px;
        font-weight: 700;
        border: 3px solid var(--ink);
        background: var(--chalk);
        cursor: pointer;
        touch-action: manipulation;
      }
      button:active {
        transform: translateY(2px);
      }
      @container task (max-height: 430px) {
        .middle {
          gap: 6px;
        }
        h1 {
          font-size: 34px;
        }
      }
      @container task (max-height: 330px) {
        .mend {
          display: none;
        }
        /* For whoever does not see the digits it stays. */
        h1 {
          position: absolute;
          clip-path: inset(50%);
        }
      }
    `,
  ];
}

/** As labels print long numbers, four and four; a postcode in one (common practice, no source). */
function inFours(digits: string): readonly string[] {
  return digits.length < 10 ? [digits] : (digits.match(/\d{1,4}/g) ?? []);
}

/** The number in one line, for screen readers and for the page's title. */
export function numberInWords(digits: string, { numberPad }: Words): string {
  if (digits === '') return `${numberPad.heading}: ${numberPad.none}`;
  return `${numberPad.heading}: ${numberPad.soFar(Array.from(digits).join(' '))}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-number-pad': NumberPad;
  }
}
