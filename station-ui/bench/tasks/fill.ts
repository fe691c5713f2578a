import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import '../../components/cautions.ts';
import { containerPicture } from '../../components/container-picture.ts';
import { millimetreWords } from '../../components/lengths.ts';
import { guidanceWords } from '../../i18n/guidance.ts';
import { TaskElement, instructionClass } from './task-element.ts';
import type { TaskAt } from './task-element.ts';

/** Everything into the container that was chosen. */
@customElement('bf-task-fill')
export class TaskFill extends TaskElement {
  @property({ attribute: false }) task!: TaskAt<'fill'>;

  override render(): TemplateResult {
    const { bench } = this.words;
    const { container, units } = this.view;
    const doubled = container?.doubled ?? null;
    const instruction = bench.fill[doubled === null ? (container?.type ?? 'pouch') : 'doubled'];
    return html`<h1 class=${instructionClass(instruction)}>${instruction}</h1>
      <p class="say secondary how">${doubled === null ? bench.fillHow : bench.bags.how}</p>
      <div class=${`fill middle ${this.task.asUsual.length > 0 ? 'quiet' : ''}`}>
        ${
          container === null
            ? null
            : html`<div class="both">
                ${containerPicture(container.type)}
                <div>
                  ${
                    doubled === null
                      ? html`<p class="name">${this.in(container.name)}</p>`
                      : html`<p class="name two">
                          <span>${bench.bags.inner(this.in(doubled.inner))}</span>
                          <span>${bench.bags.outer(this.in(doubled.outer))}</span>
                        </p>`
                  }
                  ${container.piles > 1 ? html`<p class="say piles">${bench.bags.piles(container.piles)}</p>` : null}
                  <p class="say wrap">${this.in(container.wrap)}</p>
                  <p class="say">
                    ${bench.fits[container.fit]} ·
                    ${bench.spare(`${millimetreWords(container.spare, units.length, this.language)} ${units.length}`)}
                  </p>
                </div>
              </div>`
        }
        ${
          this.task.asUsual.length === 0
            ? null
            : html`<p class="say usual" data-as-usual>
                ${guidanceWords[this.language].asUsual}:
                ${this.task.asUsual.map(
                  (each) =>
                    html`<b
                      >${each.piece}, ${this.in(each.recipe).toLowerCase()},
                      ${[each.block.width, each.block.length, each.block.thickness].map((side) => millimetreWords(side, units.length, this.language)).join(' × ')}
                      ${units.length}</b
                    >`,
                )}
              </p>`
        }
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
      .usual {
        line-height: 1.15;
      }
      .usual b {
        display: block;
        font-weight: 400;
      }
      /* Whoever is told little knows the container; how each was folded is told nowhere else. */
      @container task (max-height: 560px) {
        .quiet .container-picture {
          display: none;
        }
        .how:has(+ .quiet),
        .quiet .both .say:last-child {
          display: none;
        }
        .quiet {
          gap: 8px;
        }
      }
      @container task (max-height: 300px) {
        .quiet .both .say {
          display: none;
        }
        .quiet {
          gap: 2px;
        }
        .usual,
        .usual b {
          display: inline;
          font-size: 20px;
        }
      }
      .name.two span {
        display: block;
        font-size: 34px;
      }
      .name {
        font-size: 44px;
        line-height: 1.1;
        font-weight: 700;
        margin-bottom: 12px;
      }
      /* Two names take the height of one and a half. */
      @container task (max-height: 500px) {
        .name.two {
          margin-bottom: 4px;
        }
        .name.two span {
          font-size: 30px;
        }
        .both:has(.two) .container-picture {
          width: 110px !important;
        }
        .name.two ~ .say {
          display: inline;
        }
        .name.two ~ .say.wrap::after {
          content: ' · ';
        }
      }
      @container task (max-height: 430px) {
        .name {
          font-size: 36px;
          margin-bottom: 4px;
        }
      }
      @container task (max-height: 300px) {
        .both:has(.two) .container-picture {
          display: none;
        }
        .name.two {
          line-height: 1;
        }
        .name.two span {
          font-size: 26px;
        }
      }
      @container task (max-height: 285px) {
        .how,
        .name.two ~ .say,
        .both .say:last-child {
          display: none;
        }
      }
      @container task (max-height: 225px) {
        .middle {
          gap: 2px;
        }
        .name {
          font-size: 30px;
          margin-bottom: 0;
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-task-fill': TaskFill;
  }
}
