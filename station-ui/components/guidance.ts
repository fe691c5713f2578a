import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { GUIDANCE_LEVELS } from '#shared/guidance/level.ts';
import type { GuidanceLevel } from '#shared/guidance/level.ts';
import type { Command } from '#shared/run/commands.ts';
import type { Language } from '#shared/words/language.ts';
import { guidanceWords } from '../i18n/guidance.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { ask } from './asked.ts';

/** How much is told here, as stitches of which as many are sewn, and the way to more and to less. */
@customElement('bf-guidance')
export class GuidanceElement extends LitElement {
  @property({ attribute: false }) level!: GuidanceLevel;
  @property({ attribute: false }) commands: readonly Command[] = [];
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';

  override render(): TemplateResult {
    const said = guidanceWords[this.language];
    const sewn = GUIDANCE_LEVELS.length - GUIDANCE_LEVELS.indexOf(this.level);
    return html`<div role="group" aria-label=${said.name}>
      ${this.button('tell-less', '−', said.less)}
      <p>
        <span class="stitches" aria-hidden="true"
          >${GUIDANCE_LEVELS.map((_, index) => html`<i class=${index < sewn ? 'sewn' : ''}></i>`)}</span
        >
        <span>${said.name}</span>
        <b data-guidance=${this.level}>${said.levels[this.level]}</b>
      </p>
      ${this.button('tell-more', '+', said.more)}
    </div>`;
  }

  private button(command: Command, sign: string, says: string): TemplateResult {
    return html`<button
      type="button"
      data-guide=${command}
      ?disabled=${!this.commands.includes(command)}
      aria-label=${`${says}: ${this.words.commands[command]}`}
      title=${this.words.commands[command]}
      @click=${() => {
        ask(this, { command });
      }}
    >
      ${sign}
    </button>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
      }
      div {
        display: flex;
        align-items: stretch;
        justify-content: flex-end;
      }
      p {
        display: flex;
        flex-direction: column;
        justify-content: center;
        gap: 1px;
        min-width: 100px;
        padding: 0 8px;
        font-size: 20px;
        line-height: 1.05;
        text-align: center;
        border-block: 3px dashed var(--thread);
      }
      .stitches {
        display: flex;
        gap: 6px;
        margin-bottom: 4px;
      }
      i {
        flex: 1;
        height: 0;
        border-top: 6px dotted var(--walnut);
      }
      .sewn {
        border-top: 6px solid var(--indigo);
      }
      button {
        width: 64px;
        min-height: 68px;
        border: 3px solid var(--ink);
        background: var(--chalk);
        font-size: 34px;
        line-height: 1;
        cursor: pointer;
      }
      button:disabled {
        border-style: dashed;
        color: var(--walnut);
        cursor: default;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-guidance': GuidanceElement;
  }
}
