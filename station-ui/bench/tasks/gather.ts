import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../../components/piece-list.ts';
import { sideWorkWords } from '../../i18n/side-work.ts';
import { piecesDue } from '../pieces-due.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Find the pieces and scan each. */
@customElement('bf-task-gather')
export class TaskGather extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'gather'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    const instruction =
      this.task.missing === 0 ? bench.gatherAll : bench.gather(this.task.missing, piecesDue(this.view));
    return html`<h1 class=${instructionClass(instruction)}>${instruction}</h1>
      <bf-piece-list
        class="fill"
        large
        .pieces=${this.view.order?.pieces ?? []}
        .lies=${this.lies()}
        .words=${this.words}
      ></bf-piece-list>`;
  }

  private lies(): string {
    const lies = this.view.order?.lies;
    return lies === undefined ? '' : sideWorkWords[this.language].liesShort[lies.at](lies.number);
  }
}
