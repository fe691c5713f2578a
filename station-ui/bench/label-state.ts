import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchLabel } from '#shared/wire/label.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { Standing } from '../components/shapes.ts';
import { benchLabelWords } from '../i18n/labels.ts';
import type { Words } from '../i18n/words.ts';
import { base, benchType } from '../theme/styles.ts';
import { gapsInWords } from './customs-gaps.ts';

const STANDING: Readonly<Record<BenchLabel['state'], Standing>> = {
  coming: 'current',
  late: 'attention',
  held: 'attention',
  'given-up': 'attention',
  here: 'well',
  'passed-on': 'well',
};

/** How the label that was asked for from outside stands, and how to go on without it. */
@customElement('bf-label-state')
export class LabelState extends LitElement {
  @property({ attribute: false }) label!: BenchLabel;
  @property({ attribute: false }) words!: Words;
  @property({ attribute: false }) language: Language = 'en';
  /** without how to go on, while there is something else to do */
  @property({ type: Boolean }) brief = false;

  override render(): TemplateResult {
    const said = benchLabelWords[this.language];
    const { label } = this;
    return html`<p class="say line" data-label=${label.state}>
        ${shape(this.standing, 36)} <b>${said.states[label.state]}${this.paper()}</b>
      </p>
      ${this.brief ? null : this.more()}`;
  }

  private get standing(): Standing {
    const { state, paper } = this.label;
    return state === 'here' && (paper === 'failed' || paper === 'unknown') ? 'attention' : STANDING[state];
  }

  private paper(): string {
    const said = benchLabelWords[this.language];
    const { state, paper, document } = this.label;
    if (state !== 'here') return '';
    if (paper !== 'none') return `: ${said.paper[paper]}`;
    return document === null ? '' : `: ${said.onScreen}`;
  }

  private more(): TemplateResult | null {
    const said = benchLabelWords[this.language];
    const { commands } = this.words;
    const { label } = this;
    const goOn = said.goOn(commands.next, commands['enter-number']);
    switch (label.state) {
      case 'coming':
        return html`<p class="small secondary">${said.waitOrGoOn}</p>`;
      case 'late':
      case 'given-up':
        return html`<p class="small secondary" data-go-on>${goOn}</p>`;
      case 'held':
        return html`<p class="small">${gapsInWords(label.missing, this.language).join('. ')}</p>
          <p class="small secondary" data-go-on>${said.notSent} ${goOn}</p>`;
      case 'here':
        return html`${label.number === null ? null : html`<p class="small secondary">${said.number}</p>`}
          <div class="row">
            ${
              label.number === null
                ? null
                : html`<p class="number" data-number=${label.number}>${inFours(label.number)}</p>`
            }
            ${label.document === null ? null : this.buttons()}
          </div>`;
      case 'passed-on':
        return null;
    }
  }

  private buttons(): TemplateResult {
    const said = benchLabelWords[this.language];
    const { key, document, paper } = this.label;
    const shown = document === 'pdf' || document === 'png';
    return html`<p class="buttons">
      ${
        shown
          ? html`<a
              class="button"
              target="_blank"
              rel="noopener"
              data-open-label
              href=${`/api/labels/document?key=${encodeURIComponent(key)}`}
              >${said.open}</a
            >`
          : null
      }
      ${
        paper === 'none' || paper === 'queued'
          ? null
          : html`<button type="button" data-print-label @click=${this.printAgain}>${said.printAgain}</button>`
      }
    </p>`;
  }

  private readonly printAgain = (): void => {
    const body = JSON.stringify({ key: this.label.key });
    // What comes of it is in the next view; a lost link is shown by the page itself.
    fetch('/api/labels/print-again', { method: 'POST', headers: { 'content-type': 'application/json' }, body }).catch(
      () => undefined,
    );
  };

  static override styles = [
    base,
    benchType,
    css`
      :host {
        display: grid;
        gap: 8px;
      }
      .line {
        display: flex;
        gap: 14px;
        align-items: center;
      }
      .small {
        font-size: 27px;
      }
      @container task (max-height: 430px) {
        .small {
          font-size: 22px;
        }
      }
      .number {
        font-size: min(34px, 6cqw);
        line-height: 1.1;
        font-weight: 700;
        letter-spacing: 0.04em;
        font-variant-numeric: tabular-nums slashed-zero;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 24px;
        align-items: center;
      }
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 14px;
      }
      .button,
      button {
        display: inline-flex;
        align-items: center;
        min-height: 64px;
        padding: 4px 16px;
        font: inherit;
        font-size: 22px;
        border: 3px solid var(--ink);
        background: var(--chalk);
        color: var(--ink);
        text-decoration: none;
        cursor: pointer;
      }
    `,
  ];
}

/** As it is printed under its bars, to be compared with the eye. */
function inFours(number: string): string {
  return /^\d+$/.test(number) ? number.replace(/(.{4})(?=.)/g, '$1 ') : number;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-label-state': LabelState;
  }
}
