import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../../components/cautions.ts';
import { containerPicture } from '../../components/container-picture.ts';
import { formatMass } from '#shared/units/mass.ts';
import { careWords } from '../../i18n/care.ts';
import { loadWords } from '../../i18n/loads.ts';
import '../label-state.ts';
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
      <p class="say secondary">${this.how()}</p>
      <div class="fill middle">
        <div class="both">
          ${this.task.cautions.length > 1 || (this.task.lift ?? null) !== null ? null : containerPicture(this.view.container?.type ?? 'pouch', true)}
          <div class="marks">
            ${slipMark(this.view.slip, this.words)}
            ${
              this.view.label === undefined
                ? null
                : html`<bf-label-state
                    brief
                    .label=${this.view.label}
                    .words=${this.words}
                    .language=${this.language}
                  ></bf-label-state>`
            }
          </div>
        </div>
        ${this.lift()}
        <bf-cautions .ids=${this.task.cautions} .words=${this.words}></bf-cautions>
      </div>`;
  }

  private how(): string {
    const { bench } = this.words;
    if (this.view.slip === 'failed') return bench.sealNoSlip;
    return this.task.weighed === null ? loadWords[this.language].newSlip : bench.sealHow;
  }

  private lift(): TemplateResult | null {
    const { lift } = this.task;
    if (lift === undefined || lift === null) return null;
    const unit = this.view.units.mass === 'oz' || this.view.units.mass === 'lb' ? 'lb' : 'kg';
    const said = careWords[this.language];
    return html`<p class="say" data-lift>
      ${said.lift(formatMass(lift.mass, unit, 0), formatMass(lift.limit, unit, 0))}
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
      .marks {
        display: grid;
        gap: 12px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-seal': TaskSeal;
  }
}
