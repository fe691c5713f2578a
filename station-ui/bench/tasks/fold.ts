import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import '../../components/fold-drawing.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** One step of the fold, drawn from the piece's own measures. */
@customElement('bf-task-fold')
export class TaskFold extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'fold'>;

  override render(): TemplateResult {
    const { task, words } = this;
    const instruction = this.in(task.words);
    return html`<h1 class=${instructionClass(instruction)}>${instruction}</h1>
      <p class="say secondary">${task.piece} · ${words.bench.stepOf(task.step + 1, task.steps)}</p>
      ${keyed(
        `${String(task.pieceIndex)}/${String(task.step)}/${String(this.view.repeats)}`,
        html`<bf-fold-drawing
          class="fill"
          .drawing=${task.drawing}
          .block=${task.block}
          .unit=${this.view.units.length}
          .said=${instruction}
          .why=${task.why === null ? '' : this.in(task.why)}
          .words=${words}
        ></bf-fold-drawing>`,
      )}`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      :host {
        gap: 6px;
      }
      .say {
        display: -webkit-box;
        -webkit-line-clamp: 2;
        -webkit-box-orient: vertical;
        overflow: hidden;
        flex: none;
      }
    `,
  ];
}
