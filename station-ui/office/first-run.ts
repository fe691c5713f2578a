import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { FIRST_STEPS, type FirstRunView, type FirstStep, type StepState } from '#shared/wire/first-run.ts';
import type { RatesOverview } from '#shared/wire/rates.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { wordsOf } from '../i18n/language.ts';
import { ask } from './api.ts';
import './first-run-cupboard.ts';
import './first-run-people.ts';
import './first-run-shop.ts';
import './import.ts';
import { PageElement, sent } from './page-element.ts';
import { ratesApi } from './rates-api.ts';
import './rates-import.ts';
import './scale-setting.ts';
import './settings-section.ts';

const STANDING: Readonly<Record<StepState, Standing>> = { open: 'waiting', done: 'well', skipped: 'attention' };
const BEGIN = 'npm run -s cli -- new-shop ../my-shop';

/** A shop's first hour: six steps, each of which can be skipped and come back to. */
@customElement('bf-first-run')
export class FirstRun extends PageElement {
  @state() private view: FirstRunView | null = null;
  @state() private at: FirstStep | null = null;
  @state() private said = '';
  /** the prices, for the list that is brought in here */
  @state() private overview: RatesOverview | null = null;

  constructor() {
    super();
    this.readFirst(async () => {
      await this.readView();
      this.at = this.view === null ? null : this.next(this.view);
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.addEventListener('bf-first-run', this.told as EventListener);
    this.addEventListener('bf-first-run-asks', () => (this.said = ''));
  }

  override render(): TemplateResult {
    const words = firstRunWords[this.language];
    const { view } = this;
    if (view === null)
      return html`<h2>${words.title}</h2>
        ${this.alert()}`;
    return html`<h2>${words.title}</h2>
      ${view.open ? html`<p class="hint">${words.intro(view.folder)}</p>` : this.begin()} ${this.alert()}
      <ol class="seam">
        ${FIRST_STEPS.map((step) => this.step(step, view))}
      </ol>
      ${this.said === '' ? null : html`<p class="said" role="status">${shape('well', 22)} ${this.said}</p>`}
      ${
        view.open
          ? html`<p>
              <button type="button" data-put-away @click=${() => this.post('put-away', {}, words.finished)}>
                ${words.finish}
              </button>
            </p>`
          : null
      }`;
  }

  private begin(): TemplateResult {
    const words = firstRunWords[this.language];
    return html`<div class="begin">
      <p>${words.own}</p>
      <p><code>${BEGIN}</code></p>
      <p class="hint">${words.ownHow}</p>
    </div>`;
  }

  private step(step: FirstStep, view: FirstRunView): TemplateResult {
    const words = firstRunWords[this.language];
    const state = view.steps[step];
    const open = this.at === step;
    return html`<li data-step=${step} data-state=${state}>
      <button
        type="button"
        class="name"
        aria-expanded=${open}
        @click=${() => {
          this.at = open ? null : step;
          this.said = '';
        }}
      >
        ${shape(open && state === 'open' ? 'current' : STANDING[state], 24)} <b>${words.steps[step]}</b>
        <span class="state">${words.states[state]}</span>
      </button>
      ${
        open
          ? html`<div class="inside">
              ${this.inside(step, view)}
              <p class="tools">
                ${
                  step === 'shop' || step === 'containers' || step === 'people'
                    ? null
                    : html`<button type="button" data-done @click=${() => this.mark(step, 'done')}>
                        ${words.done}
                      </button>`
                }
                <button type="button" data-skip @click=${() => this.mark(step, 'skipped')}>${words.skip}</button>
              </p>
            </div>`
          : null
      }
    </li>`;
  }

  private inside(step: FirstStep, view: FirstRunView): TemplateResult {
    const words = firstRunWords[this.language];
    const { language } = this;
    switch (step) {
      case 'shop':
        return html`<bf-first-run-shop .language=${language} .view=${view}></bf-first-run-shop>`;
      case 'containers':
        return html`<bf-first-run-cupboard .language=${language} .view=${view}></bf-first-run-cupboard>`;
      case 'people':
        return html`<bf-first-run-people .language=${language} .view=${view}></bf-first-run-people>`;
      case 'prices':
        return this.prices(view);
      case 'devices': {
        const { devices } = wordsOf(language);
        return html`<p class="hint">${words.devices.how}</p>
          <ul>
            ${view.benches.map(({ name, simulated }) => {
              const named = simulated.flatMap((each) =>
                each in devices ? [devices[each as keyof typeof devices]] : [],
              );
              return html`<li>
                <b>${name}</b> · ${named.length === 0 ? words.devices.real : words.devices.simulated(named.join(', '))}
              </li>`;
            })}
          </ul>
          <bf-scale-setting .language=${language} .words=${wordsOf(language)} .finderOnly=${true}></bf-scale-setting>
          <bf-settings-section
            .language=${language}
            .section=${'benches'}
            .file=${'devices.yaml'}
            @bf-settings-written=${() => void this.look()}
          ></bf-settings-section>
          <p class="tools"><a class="button" href="#devices">${words.devices.open}</a></p>`;
      }
      case 'import':
        return html`<p class="hint">${words.import.how}</p>
          <p data-counts>${words.import.counts(view.counts.pieces, view.counts.orders)}</p>
          <bf-import
            .words=${wordsOf(language).office}
            .language=${language}
            @bf-imported=${() => void this.look()}
          ></bf-import>`;
    }
  }

  private prices(view: FirstRunView): TemplateResult {
    const words = firstRunWords[this.language].prices;
    const own = view.cards.some(({ sample }) => !sample);
    const standIn = view.cards.some(({ sample }) => sample);
    return html`<p class="hint">${words.how}</p>
      <ul>
        ${view.cards.map(({ name, sample }) => html`<li><b>${name[this.language]}</b>${sample ? html` · ${words.standIn}` : null}</li>`)}
      </ul>
      ${
        this.overview === null
          ? null
          : html`<bf-rates-import
              .overview=${this.overview}
              .firstDay=${this.overview.day}
              .words=${wordsOf(this.language).office.rates}
              .language=${this.language}
              @bf-rates-changed=${() => void this.look()}
            ></bf-rates-import>`
      }
      <p class="tools">
        ${
          standIn && own
            ? html`<button type="button" data-drop @click=${() => this.post('prices/drop-stand-in', {})}>
                ${words.drop}
              </button>`
            : null
        }
      </p>
      ${standIn && !own ? html`<p class="hint">${words.none}</p>` : null}`;
  }

  /** Something was done inside a step, by what does it on its own page too: the step shows what is there now. */
  private async look(): Promise<void> {
    await this.attempt(() => this.readView());
  }

  private async readView(): Promise<void> {
    [this.view, this.overview] = await Promise.all([ask<FirstRunView>('/api/first-run'), ratesApi.overview('')]);
  }

  /** The first step that nobody has done or skipped, after the one at hand; else the first such one. */
  private next(view: FirstRunView): FirstStep | null {
    const from = this.at === null ? 0 : FIRST_STEPS.indexOf(this.at) + 1;
    const waits = (step: FirstStep) => view.steps[step] === 'open';
    return FIRST_STEPS.slice(from).find(waits) ?? FIRST_STEPS.find(waits) ?? null;
  }

  private mark(step: FirstStep, state: StepState): void {
    void this.post(`steps/${step}`, { state });
  }

  private async post(path: string, body: unknown, said = ''): Promise<void> {
    await this.attempt(async () => {
      this.taken(await ask<FirstRunView>(`/api/first-run/${path}`, sent(body)), said);
    });
  }

  private taken(view: FirstRunView, said: string): void {
    this.view = view;
    this.said = said;
    this.at = this.next(view);
  }

  private readonly told = (event: CustomEvent<FirstRunView>): void => {
    this.taken(event.detail, firstRunWords[this.language].saved);
  };

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      .seam {
        list-style: none;
        margin: 0;
        padding: 0;
        border-left: 4px dashed var(--thread);
      }
      .seam > li {
        padding-left: 18px;
      }
      .name {
        gap: 12px;
        width: 100%;
        min-height: 52px;
        border: 0;
        border-bottom: 1px solid var(--kraft);
        text-align: left;
        font-size: 18px;
      }
      .state {
        margin-left: auto;
        color: var(--walnut);
        font-size: 16px;
      }
      .inside {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 14px;
        padding: 14px 0 20px;
      }
      .begin {
        background: var(--kraft);
        padding: 12px 20px;
      }
      .begin .hint {
        color: var(--ink);
      }
      code {
        display: inline-block;
        font-size: 17px;
        user-select: all;
        background: var(--chalk);
        padding: 6px 10px;
        margin: 6px 0;
        overflow-wrap: anywhere;
      }
      ul {
        margin: 0;
        padding-left: 20px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-first-run': FirstRun;
  }
}
