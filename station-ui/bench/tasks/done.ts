import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { shape } from '../../components/shapes.ts';
import { unbroken } from '../../components/unbroken.ts';
import { loadWords } from '../../i18n/loads.ts';
import '../between-orders.ts';
import { dayLine } from '../day-count.ts';
import { pauseLine } from '../pause-line.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** The order is packed. */
@customElement('bf-task-done')
export class TaskDone extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'done'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    const heading = bench.done(this.task.order);
    const seconds = Math.round(this.task.seconds);
    const took = bench.minutes(Math.floor(seconds / 60), seconds % 60);
    const pausing = (this.view.pause ?? null) !== null;
    return html`<div class="fill middle">
      <div class="both">
        ${shape('well', 150)}
        <div>
          <h1 class=${instructionClass(heading)}>${unbroken(heading)}</h1>
          <p class="say secondary">${bench.doneTook(took)}</p>
        </div>
      </div>
      <p class="say">${bench.doneHow}</p>
      ${this.slip()} ${pauseLine(this.view, this.language)} ${dayLine(this.view, this.language)}
      ${
        // What runs short is told at the empty bench too; a pause is told now.
        pausing
          ? null
          : html`<bf-between-orders
              .view=${this.view}
              .words=${this.words}
              .language=${this.language}
            ></bf-between-orders>`
      }
    </div>`;
  }

  /** A parcel that is to leave without its slip says so, for as long as it is at hand. */
  private slip(): TemplateResult | null {
    const { slip } = this.view;
    if (slip === 'none' || slip === 'printed') return null;
    return html`<p class="say no-slip" role="status" data-slip=${slip}>
      ${shape(slip === 'failed' ? 'stop' : 'attention', 36)} <b>${loadWords[this.language].slipMissing[slip]}</b>
    </p>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .both {
        display: flex;
        gap: 32px;
        align-items: center;
      }
      .no-slip {
        display: flex;
        gap: 14px;
        align-items: center;
      }
      .day {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 36px;
        padding-top: 16px;
        border-top: 3px dashed var(--thread);
      }
      .risk {
        display: flex;
        gap: 10px;
        align-items: center;
      }
      @container task (max-height: 300px) {
        .middle {
          gap: 4px;
        }
        .both svg {
          width: 56px;
          height: 56px;
        }
        .both .secondary {
          display: none;
        }
        .day {
          padding-top: 4px;
        }
      }
    `,
  ];
}
