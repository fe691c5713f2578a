import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { shape } from '../../components/shapes.ts';
import '../between-orders.ts';
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
    return html`<div class="fill middle">
      <div class="both">
        ${shape('well', 150)}
        <div>
          <h1 class=${instructionClass(heading)}>${heading}</h1>
          <p class="say secondary">${bench.doneTook(took)}</p>
        </div>
      </div>
      <p class="say">${bench.doneHow}</p>
      ${pauseLine(this.view, this.language)}
      <p class="say day">
        <b>${bench.waiting(this.view.day.waiting)}</b><span>${bench.doneToday(this.view.day.done)}</span
        ><span>${bench.setAside(this.view.day.setAside)}</span>
      </p>
      <bf-between-orders .view=${this.view} .words=${this.words} .language=${this.language}></bf-between-orders>
    </div>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .both {
        display: flex;
        gap: 32px;
        align-items: center;
      }
      .day {
        display: flex;
        gap: 36px;
        padding-top: 16px;
        border-top: 3px dashed var(--thread);
      }
      @container task (max-height: 300px) {
        .both svg {
          width: 72px;
          height: 72px;
        }
        .day {
          padding-top: 8px;
        }
      }
    `,
  ];
}
