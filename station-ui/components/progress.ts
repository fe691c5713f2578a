import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { LEAST_TIMES, timeOf } from '#shared/people/learning-curve.ts';
import { MISTAKE_KINDS } from '#shared/run/types.ts';
import type { Language } from '#shared/words/language.ts';
import type { KindView, ProgressView } from '#shared/wire/people.ts';
import { guidanceWords } from '../i18n/guidance.ts';
import { practiceWords } from '../i18n/practice.ts';
import { base } from '../theme/styles.ts';
import './learning-chart.ts';
import { shape } from './shapes.ts';

const percent = (part: number): number => Math.round(part * 100);

/** How one person gets on: streaks, what was caught, each kind with its guidance, and the learning curve of one. */
@customElement('bf-progress')
export class ProgressElement extends LitElement {
  @property({ attribute: false }) progress!: ProgressView;
  @property({ attribute: false }) language: Language = 'en';
  /** as large as the bench needs it */
  @property({ type: Boolean, reflect: true }) bench = false;
  @state() private chosen: string | null = null;

  override render(): TemplateResult {
    const { progress, language } = this;
    const words = practiceWords[language].progress;
    if (progress.id === '') return html`<p>${words.signOnFirst}</p>`;
    const caught = MISTAKE_KINDS.filter((kind) => progress.mistakes[kind] > 0);
    return html`<p class="sums">
        <b>${words.orders(progress.orders)}</b>
        <span>${shape('well', 24)} ${words.streak(progress.streak.now, progress.streak.longest)}</span>
        ${progress.practised.asked === 0 ? null : html`<span>${words.practised(progress.practised.right, progress.practised.asked)}</span>`}
      </p>
      <p class="caught">
        <b>${words.mistakesTitle}:</b>
        ${
          caught.length === 0
            ? words.noMistakes
            : caught.map(
                (kind, index) => html`${index === 0 ? '' : ' · '}${words.mistakes[kind]} ${progress.mistakes[kind]}×`,
              )
        }
      </p>
      ${progress.kinds.length === 0 ? html`<p>${words.nothingYet}</p>` : this.kinds()}`;
  }

  private kinds(): TemplateResult {
    const { progress, language } = this;
    const words = practiceWords[language].progress;
    const guidance = guidanceWords[language];
    const shown = progress.kinds.find(({ kind }) => kind === this.chosen) ?? progress.kinds[0];
    return html`<div class="both">
      <div class="scroll" tabindex="0" role="region" aria-label=${words.kind}>
        <table>
          <thead>
            <tr>
              ${[words.kind, words.packs, words.clean, words.cleanInARow, words.guidance].map((each) => html`<th scope="col">${each}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${progress.kinds.map(
              (kind) =>
                html`<tr data-kind=${kind.kind}>
                  <th scope="row">
                    <button
                      type="button"
                      aria-pressed=${kind === shown ? 'true' : 'false'}
                      @click=${() => (this.chosen = kind.kind)}
                    >
                      ${kind.name[language]}
                    </button>
                  </th>
                  <td>${kind.packs}</td>
                  <td>${kind.clean}</td>
                  <td>${kind.streak.now}</td>
                  <td>
                    <b>${guidance.levels[kind.level]}</b
                    >${kind.chosen ? ` · ${words.byHand}` : ''}${kind.cleanLeft === null ? '' : ` · ${words.guidanceLeft(kind.cleanLeft)}`}
                  </td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      ${shown === undefined ? null : this.curve(shown)}
    </div>`;
  }

  private curve(kind: KindView): TemplateResult {
    const { language } = this;
    const words = practiceWords[language].progress;
    const { curve, times } = kind;
    return html`<div class="curve">
      <h3>${words.curveOf(kind.name[language])}</h3>
      ${
        curve === null
          ? html`<p class="secondary">${words.tooFew(LEAST_TIMES)}</p>`
          : html`<p>${words.eachDoubling(percent(curve.rate))}; ${words.explained(percent(curve.explained))}</p>
              <bf-learning-chart
                .kind=${kind}
                .language=${language}
                .height=${this.bench ? 210 : 240}
                .letter=${this.bench ? 20 : 15}
              ></bf-learning-chart>`
      }
      ${
        times.length === 0
          ? null
          : html`<div class="scroll times" tabindex="0" role="region" aria-label=${words.curve}>
              <table data-table="learning">
                <thead>
                  <tr>
                    ${[words.pack, words.secondsAPiece, ...(curve === null ? [] : [words.onTheCurve])].map((each) => html`<th scope="col">${each}</th>`)}
                  </tr>
                </thead>
                <tbody>
                  ${times.map(
                    (time, index) =>
                      html`<tr>
                        <th scope="row">${index + 1}</th>
                        <td>${Math.round(time)}</td>
                        ${curve === null ? null : html`<td>${Math.round(timeOf(curve, index + 1))}</td>`}
                      </tr>`,
                  )}
                </tbody>
              </table>
            </div>`
      }
    </div>`;
  }

  static override styles = [
    base,
    css`
      :host {
        display: flex;
        flex-direction: column;
        gap: 8px;
        min-height: 0;
      }
      :host([bench]) {
        font-size: 22px;
        line-height: 1.2;
      }
      .sums {
        display: flex;
        flex-wrap: wrap;
        gap: 4px 28px;
      }
      .sums span {
        display: flex;
        gap: 8px;
        align-items: center;
      }
      .both {
        display: grid;
        grid-template-columns: minmax(0, 1.1fr) minmax(0, 1fr);
        gap: 24px;
        min-height: 0;
      }
      .scroll {
        overflow: auto;
        min-height: 0;
      }
      .curve {
        display: flex;
        flex-direction: column;
        min-height: 0;
        gap: 6px;
      }
      .times {
        max-height: 200px;
      }
      table {
        border-collapse: collapse;
        width: 100%;
        font-variant-numeric: tabular-nums;
      }
      thead th {
        text-align: left;
        border-bottom: 3px dashed var(--thread);
      }
      th,
      td {
        padding: 3px 10px 3px 0;
        vertical-align: middle;
      }
      tbody th {
        text-align: left;
        font-weight: 400;
      }
      button {
        min-height: 44px;
        padding: 2px 10px;
        border: 2px solid var(--ink);
        background: var(--chalk);
        text-align: left;
        cursor: pointer;
      }
      :host([bench]) button {
        min-height: 64px;
      }
      button[aria-pressed='true'] {
        background: var(--indigo);
        border-color: var(--indigo);
        color: var(--on-indigo);
        font-weight: 700;
      }
      @media (max-width: 900px) {
        .both {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-progress': ProgressElement;
  }
}
