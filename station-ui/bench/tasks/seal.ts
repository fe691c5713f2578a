import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../../components/cautions.ts';
import { containerPicture } from '../../components/container-picture.ts';
import { slipMark } from '../slip-mark.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Close it. The slip goes in first. */
@customElement('bf-task-seal')
export class TaskSeal extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'seal'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    return html`<h1 class=${instructionClass(bench.seal)}>${bench.seal}</h1>
      <p class="say secondary">${bench.sealHow}</p>
      <div class="fill middle">
        <div class="both">
          ${this.task.cautions.length > 1 ? null : containerPicture(this.view.container?.type ?? 'pouch', true)}
          <div>${slipMark(this.view.slip, this.words)}</div>
        </div>
        <bf-cautions .ids=${this.task.cautions} .words=${this.words}></bf-cautions>
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
    `,
  ];
}
