import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Command } from '#shared/run/commands.ts';
import { formatMass, subtractMass, ZERO_MASS } from '#shared/units/mass.ts';
import { formatMoney, subtractMoney } from '#shared/units/money.ts';
import { loadWords } from '../../i18n/loads.ts';
import { ask } from '../../components/asked.ts';
import { TaskElement } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Weighed less than one part in as many of the least that is expected. */
const ALMOST_NOTHING = 4;

interface Choice {
  readonly command: Command;
  readonly heading: string;
  readonly lines: readonly string[];
}

/** The weight is too close to a ceiling, over it, or not what these pieces weigh: what can be done, and what each costs. */
@customElement('bf-task-decide')
export class TaskDecide extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'decide'>;

  override render(): TemplateResult {
    const { task, words } = this;
    const heading = this.almostNothing()
      ? loadWords[this.language].almostNothing
      : words.decide.heading[task.because](this.plainMass(task.verdict.ceiling));
    return html`<div class=${`warning ${task.because === 'close' ? 'striped' : 'torn'}`} data-because=${task.because}>
        ${task.because === 'close' ? closePicture : overPicture}
        <div class="text">
          <h1 class="instruction">${heading}</h1>
          <p class="say">${this.explained()}</p>
          ${this.isOtherLoad() ? html`<p class="say" data-other-load><b>${loadWords[this.language].notJudged}</b></p>` : null}
          ${task.because === 'mismatch' ? null : html`<p class="components" data-components>${this.components()}</p>`}
        </div>
      </div>
      <div class="choices fill">${this.choices().map((choice, index) => this.choice(choice, index))}</div>`;
  }

  private explained(): string {
    const { task } = this;
    const { decide } = this.words;
    const { reading, verdict, expected } = task;
    const shown = formatMass(reading.mass, reading.unit, reading.places, this.language);
    if (task.because === 'mismatch') {
      const why = this.almostNothing()
        ? loadWords[this.language].almostNothingHow
        : reading.mass < expected.low
          ? decide.tooLight
          : reading.mass > expected.high
            ? decide.tooHeavy
            : decide.nothingMissing;
      return `${shown}: ${why} · ${decide.usual(this.bare(expected.low), this.mass(expected.high))}`;
    }
    const learned = verdict.learned ?? ZERO_MASS;
    const toCome = this.plainMass(subtractMass(subtractMass(verdict.total, reading.mass), learned));
    const more = learned === 0 ? '' : ` + ${decide.learned(this.fineMass(learned))}`;
    return `${decide.sum(shown, toCome)}${more} · ${decide.offBy(this.fineMass(verdict.uncertainty))}`;
  }

  /** So little that it is rather a zero that has crept away, or a pouch with nothing in it, than too few pieces. */
  private almostNothing(): boolean {
    const { because, reading, expected } = this.task;
    return because === 'mismatch' && reading.mass * ALMOST_NOTHING < expected.low;
  }

  /** What lies on the scale now is not what was judged. */
  private isOtherLoad(): boolean {
    const now = this.live?.reading ?? null;
    if (now === null || this.live?.needsEmptying !== true) return false;
    return Math.abs(now.mass - this.task.reading.mass) > 2 * now.division;
  }

  /** What the margin of error is made of, the largest part first. */
  private components(): string {
    const { decide } = this.words;
    const parts = [...this.task.verdict.components].sort((a, b) => b.standardGrams - a.standardGrams);
    return `${decide.madeOf}: ${parts.map((part) => decide.components[part.name](`± ${this.fineMass(part.halfWidth)}`)).join(' · ')}`;
  }

  private bare(mass: Parameters<typeof formatMass>[0]): string {
    return this.mass(mass).replace(/\s\w+$/, '');
  }

  /** Only what is possible now, in a fixed order of what costs least. */
  private choices(): readonly Choice[] {
    const { task } = this;
    const { decide } = this.words;
    const possible = new Set(this.view.commands);
    const lighter = task.lighter.slice(0, 3).map((each) => decide.lighterBy(this.in(each.what), this.mass(each.mass)));
    const drifted = task.drift > 0 ? decide.drifted(this.plainMass(task.drift)) : decide.notDrifted;
    const all: readonly Choice[] =
      task.because === 'mismatch'
        ? [
            this.almostNothing()
              ? {
                  command: 'zero-scale',
                  heading: decide.choices['zero-scale'],
                  lines: [loadWords[this.language].zeroAndWeigh],
                }
              : { command: 'weigh-again', heading: decide.checkPieces, lines: [decide.checkHow] },
            { command: 'next', heading: decide.choices.next, lines: [decide.needsConfirm] },
          ]
        : [
            { command: 'weigh-again', heading: decide.choices['weigh-again'], lines: [drifted] },
            {
              command: 'make-lighter',
              heading: decide.choices['make-lighter'],
              lines: lighter.length === 0 ? [decide.nothingLighter] : lighter,
            },
            { command: 'pay-next-bracket', heading: decide.choices['pay-next-bracket'], lines: this.nextPrice() },
          ];
    return all.filter((choice) => possible.has(choice.command));
  }

  private nextPrice(): readonly string[] {
    const { nextPrice, paid } = this.task;
    const { decide } = this.words;
    if (nextPrice === null) return [decide.noNext];
    return [
      decide.nextCosts(
        formatMoney(nextPrice, this.language),
        formatMoney(subtractMoney(nextPrice, paid), this.language),
      ),
      decide.needsConfirm,
    ];
  }

  private choice(choice: Choice, index: number): TemplateResult {
    return html`<button
      type="button"
      class="tag kraft"
      data-choice=${choice.command}
      @click=${() => {
        ask(this, { command: choice.command });
      }}
    >
      <b>${index + 1} · ${choice.heading}</b>
      ${choice.lines.map((line) => html`<span class="line">${line}</span>`)}
    </button>`;
  }

  static override styles = [
    ...TaskElement.styles,
    css`
      :host {
        gap: 18px;
      }
      .warning {
        display: flex;
        align-items: center;
        gap: 24px;
        padding: 12px 24px 16px;
        margin: 2px;
      }
      .striped .text {
        background: var(--weld);
        padding: 4px 14px;
      }
      .torn {
        color: var(--madder);
        border: 5px solid var(--madder);
        border-bottom-style: dashed;
      }
      .torn .say {
        color: var(--ink);
      }
      .components {
        margin-top: 4px;
        font-size: 22px;
        line-height: 1.2;
      }
      .torn .components {
        color: var(--ink);
      }
      .instruction {
        font-size: min(58px, var(--size-instruction));
      }
      .picture {
        flex: none;
      }
      .choices {
        display: grid;
        grid-auto-flow: column;
        grid-auto-columns: 1fr;
        gap: 18px;
      }
      .tag {
        display: block;
        border: 0;
        text-align: left;
        padding: 16px 20px;
        clip-path: polygon(0 0, calc(100% - 26px) 0, 100% 26px, 100% 100%, 0 100%);
        display: flex;
        flex-direction: column;
        justify-content: flex-start;
        gap: 8px;
        cursor: pointer;
      }
      .tag b {
        font-size: 33px;
        line-height: 1.1;
        padding-right: 18px;
      }
      .line {
        font-size: 24px;
        line-height: 1.25;
      }
      :focus-visible.tag {
        outline-offset: -8px;
      }
      @container task (max-height: 470px) {
        :host {
          gap: 12px;
        }
      }
      /* Held upright there is no room for a heading of two lines and the ways out below it. */
      @container task (max-width: 760px) and (max-height: 640px) {
        .instruction {
          font-size: 52px;
        }
      }
      @container task (max-height: 470px) or ((max-width: 760px) and (max-height: 640px)) {
        .warning {
          padding: 6px 20px 8px;
        }
        .tag {
          padding: 10px 16px;
          gap: 4px;
        }
        .tag b {
          font-size: 29px;
        }
        .line {
          font-size: 22px;
        }
      }
      @container task (max-height: 415px) {
        .components {
          display: none;
        }
      }
      @container task (max-height: 300px) {
        .picture {
          display: none;
        }
        .tag b {
          font-size: 22px;
        }
        .line {
          display: none;
        }
      }
      @container task (max-height: 250px) {
        .tag {
          padding: 4px 12px;
        }
        .tag b {
          font-size: 20px;
          padding-right: 12px;
        }
      }
    `,
  ];
}

const closePicture = html`<svg class="picture" width="92" height="92" viewBox="0 0 92 92" aria-hidden="true">
  <path d="M2 46H90M22 28V64M70 28V64" stroke="var(--on-weld)" stroke-width="7" />
  <path d="M46 4V88" stroke="var(--on-weld)" stroke-width="7" stroke-dasharray="14 9" />
</svg>`;

const overPicture = html`<svg class="picture" width="92" height="92" viewBox="0 0 92 92" aria-hidden="true">
  <path
    d="M8 14 20 4 32 14 44 4 56 14 68 4 84 12V80L72 88 58 78 46 88 32 78 20 88 8 80Z"
    fill="none"
    stroke="var(--madder)"
    stroke-width="5"
  />
  <path d="M28 28 64 64M64 28 28 64" stroke="var(--madder)" stroke-width="9" stroke-linecap="round" />
</svg>`;
