import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Command } from '#shared/run/commands.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { ask } from './asked.ts';

/** These have their buttons beside what they are about. */
const ELSEWHERE: ReadonlySet<Command> = new Set<Command>(['tell-more', 'tell-less']);

/** With more of them a small tablet has no room for large words. */
const MOST_ROOMY = 7;
/** With so many a narrow place needs two rows. */
const MANY = 7;

/** What can be said, scanned or pressed here, the main one first and largest. */
@customElement('bf-commands')
export class Commands extends LitElement {
  @property({ attribute: false }) commands: readonly Command[] = [];
  /** sent and not yet acknowledged */
  @property({ attribute: false }) waiting: ReadonlySet<Command> = new Set();
  /** what the main one does here, or '' */
  @property() means = '';
  @property({ attribute: false }) words!: Words;

  override render(): TemplateResult {
    const here = this.commands.filter((command) => !ELSEWHERE.has(command));
    return html`<div
      class=${`${here.length > MOST_ROOMY ? 'crowd' : ''} ${here.length >= MANY ? 'many' : ''}`}
      role="group"
      aria-label=${this.words.bench.commandsHere}
    >
      ${here.map((command, index) => this.button(command, index === 0))}
    </div>`;
  }

  private button(command: Command, main: boolean): TemplateResult {
    const waiting = this.waiting.has(command);
    return html`<button
      type="button"
      class=${`${main ? 'main' : ''} ${waiting ? 'waiting' : ''}`}
      data-command=${command}
      aria-busy=${waiting ? 'true' : 'false'}
      @click=${() => {
        ask(this, { command });
      }}
    >
      <b>${this.words.commands[command]}</b>
      ${main && this.means !== '' ? html`<span class="means">${this.means}</span>` : null}
    </button>`;
  }

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: block;
        container: commands / inline-size;
      }
      div {
        display: grid;
        grid-auto-flow: column;
        grid-template-columns: minmax(0, 1.7fr);
        grid-auto-columns: minmax(0, 1fr);
        gap: 10px;
      }
      button {
        min-height: 68px;
        padding: 4px;
        text-wrap: balance;
        border: 3px solid var(--ink);
        background: var(--chalk);
        font-size: var(--size-command, 23px);
        line-height: 1.05;
        cursor: pointer;
      }
      button b {
        font-weight: 400;
        display: block;
      }
      .main {
        background: var(--indigo);
        border-color: var(--indigo);
        color: var(--on-indigo);
        text-align: left;
        padding: 4px 20px;
        clip-path: polygon(0 0, calc(100% - 18px) 0, 100% 18px, 100% 100%, 0 100%);
      }
      .main b {
        font-weight: 700;
        font-size: 28px;
      }
      .means {
        display: block;
        font-size: 21px;
        margin-top: 2px;
      }
      .waiting {
        border-style: dashed;
        text-decoration: underline dotted 3px;
        text-underline-offset: 5px;
      }
      button:active {
        transform: translateY(2px);
      }
      :focus-visible.main {
        outline-offset: -7px;
        outline-color: var(--on-indigo);
      }
      @media (max-width: 1100px) and (min-width: 901px) {
        div {
          grid-template-columns: minmax(0, 1.6fr);
          gap: 6px;
        }
        button {
          padding: 4px 2px;
        }
        .main {
          padding: 4px 12px;
        }
        .main b {
          font-size: 26px;
        }
        .crowd button {
          font-size: 20px;
        }
      }
      /* Beside the guidance on a small tablet. */
      @media (max-width: 1100px) and (min-width: 901px) {
        @container commands (max-width: 760px) {
          .many button {
            font-size: 20px;
          }
        }
      }
      /* Beside the drawer of the simulated devices. */
      @media (min-width: 901px) {
        @container commands (max-width: 640px) {
          div {
            grid-auto-flow: row;
            grid-template-columns: repeat(4, minmax(0, 1fr));
          }
          .main {
            grid-column: span 2;
          }
        }
      }
      /* A small tablet has one row; the drawer offers every command too. */
      @media (min-width: 901px) and (max-height: 680px) {
        @container commands (max-width: 640px) {
          button:nth-child(n + 4) {
            display: none;
          }
        }
      }
      @media (min-width: 1101px) {
        @container commands (min-width: 641px) and (max-width: 860px) {
          .many {
            grid-auto-flow: row;
            grid-template-columns: repeat(5, minmax(0, 1fr));
          }
          .many .main {
            grid-column: span 2;
          }
        }
      }
      @media (max-width: 900px) {
        div {
          grid-auto-flow: row;
          grid-template-columns: repeat(5, minmax(0, 1fr));
        }
        .main {
          grid-column: span 2;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-commands': Commands;
  }
}
