import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { keyed } from 'lit/directives/keyed.js';
import '../../components/fold-drawing.ts';
import { shape } from '../../components/shapes.ts';
import { guidanceWords } from '../../i18n/guidance.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** One step of the fold, drawn from the piece's own measures. */
@customElement('bf-task-fold')
export class TaskFold extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'fold'>;

  override render(): TemplateResult {
    const { task, words } = this;
    const said = guidanceWords[this.language];
    const key = task.told === 'key';
    const instruction = key ? said.foldAs(this.in(task.recipe)) : this.in(task.words);
    const where = key ? said.keyStep(task.steps) : words.bench.stepOf(task.step + 1, task.steps);
    return html`<h1 class=${instructionClass(instruction)}>${instruction}</h1>
      <p class="say secondary" data-told=${task.told}>
        <span class=${key ? 'piece' : ''}>${task.piece} ·</span>
        ${where}${key ? html`: <b>${this.in(task.words)}</b>` : null}
      </p>
      ${
        task.usual === null
          ? null
          : html`<p class="say differs">${shape('attention', 28)} ${said.notAsUsual(this.in(task.usual))}</p>`
      }
      ${keyed(
        `${String(task.pieceIndex)}/${String(task.step)}/${String(this.view.repeats)}`,
        html`<bf-fold-drawing
          class="fill"
          .drawing=${task.drawing}
          .block=${task.block}
          .unit=${this.view.units.length}
          .said=${this.in(task.words)}
          .why=${task.why === null || key ? '' : this.in(task.why)}
          .large=${key}
          .language=${this.language}
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
      @container task (max-height: 300px) {
        .piece {
          display: none;
        }
      }
      .differs {
        display: flex;
        gap: 12px;
        align-items: center;
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-fold': TaskFold;
  }
}
