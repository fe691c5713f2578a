import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Command } from '#shared/run/commands.ts';
import type { Task } from '#shared/wire/views.ts';
import { formatMoney, subtractMoney } from '#shared/units/money.ts';
import { shape } from '../../components/shapes.ts';
import { ask } from '../../components/asked.ts';
import { confirmHowOf } from '../../i18n/confirm-how.ts';
import { question } from '../question.ts';
import { TaskElement, instructionClass } from './task-element.ts';

/** Something that a slip of the hand must not do waits for "confirm". */
@customElement('bf-confirm')
export class Confirm extends TaskElement {
  @property({ attribute: false }) task!: Task;

  override render(): TemplateResult | null {
    const { confirming } = this.view;
    if (confirming === null) return null;
    const { commands } = this.words;
    const asked = question(this.view, this.words);
    return html`<div class="fill middle" role="group" aria-label=${asked}>
      <div class="both">
        ${shape('attention', 110)}
        <div>
          <h1 class=${instructionClass(asked)}>${asked}</h1>
          <p class="say">${this.cost()}${this.how(confirming.command)}</p>
        </div>
      </div>
      <div class="answers">
        ${(['confirm', 'cancel'] as const).map(
          (command) =>
            html`<button
              type="button"
              class=${command}
              data-choice=${command}
              @click=${() => {
                ask(this, { command });
              }}
            >
              ${commands[command]}
            </button>`,
        )}
      </div>
    </div>`;
  }

  private how(command: Command): string {
    const { batch, language } = this.view;
    if (command === 'next' && this.task.at === 'label') return this.words.bench.byEyeHow;
    return confirmHowOf(command, batch !== undefined, language);
  }

  private cost(): string {
    const { task } = this;
    if (this.view.confirming?.command !== 'pay-next-bracket' || task.at !== 'decide' || task.nextPrice === null)
      return '';
    return `${this.words.decide.nextCosts(formatMoney(task.nextPrice, this.language), formatMoney(subtractMoney(task.nextPrice, task.paid), this.language))} · `;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      .middle {
        gap: 32px;
      }
      .both {
        display: flex;
        gap: 28px;
        align-items: center;
      }
      .answers {
        display: flex;
        gap: 24px;
      }
      button {
        flex: 1;
        min-height: 110px;
        font-size: 40px;
        font-weight: 700;
        border: 4px solid var(--ink);
        background: var(--chalk);
        cursor: pointer;
      }
      .confirm {
        background: var(--indigo);
        border-color: var(--indigo);
        color: var(--on-indigo);
      }
    `,
  ];
}
