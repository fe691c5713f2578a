import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../label-state.ts';
import { slipMark } from '../slip-mark.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** The label must carry this order's postcode. */
@customElement('bf-task-label')
export class TaskLabel extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'label'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    return html`<h1 class=${instructionClass(bench.label)}>${bench.label}</h1>
      <div class="fill middle">
        <p class="say">${bench.labelPostcode}</p>
        <p class="postcode" ?data-with-label=${this.view.label !== undefined} data-postcode=${this.task.postcode}>
          ${this.task.postcode}
        </p>
        ${
          this.view.label === undefined
            ? html`<p class="say secondary">${bench.labelWhy}</p>
                ${slipMark(this.view.slip, this.words)}`
            : html`<bf-label-state
                .label=${this.view.label}
                .words=${this.words}
                .language=${this.language}
              ></bf-label-state>`
        }
      </div>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .middle {
        gap: 14px;
      }
      @container task (max-height: 430px) {
        .middle {
          gap: 6px;
        }
      }
      .postcode {
        align-self: start;
        font-size: min(130px, 26cqh);
        line-height: 1;
        font-weight: 700;
        letter-spacing: 0.04em;
        padding: 10px 36px 14px;
        border: 5px dashed var(--ink);
      }
      .postcode[data-with-label] {
        font-size: min(96px, 18cqh);
        padding: 6px 28px 8px;
      }
    `,
  ];
}
