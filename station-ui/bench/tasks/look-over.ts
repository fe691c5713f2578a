import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../../components/cautions.ts';
import { shape } from '../../components/shapes.ts';
import { TaskElement } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Condition, pockets, and nothing that may not be mailed. */
@customElement('bf-task-look-over')
export class TaskLookOver extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'look-over'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    return html`<h1 class="instruction">${bench.lookOver}</h1>
      <p class="say">
        <b>${this.task.piece}</b> <span class="secondary">· ${bench.pieceOf(this.task.index + 1, this.task.of)}</span>
      </p>
      <div class="fill middle">
        <ul class="say">
          ${bench.lookFor.map((each) => html`<li>${shape('current', 26)} ${each}</li>`)}
        </ul>
        <bf-cautions .ids=${this.task.cautions} .words=${this.words}></bf-cautions>
      </div>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      @container task (max-height: 300px) {
        ul {
          display: flex;
          flex-wrap: wrap;
          column-gap: 24px;
          font-size: 20px;
        }
      }
      li {
        display: flex;
        align-items: center;
        gap: 16px;
        padding: 4px 0;
      }
    `,
  ];
}
