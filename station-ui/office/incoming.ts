import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { importText } from '#shared/imports/problems-in-spanish.ts';
import type { IncomingFile, IncomingView } from '#shared/wire/incoming.ts';
import { shape } from '../components/shapes.ts';
import { ReadAgain } from '../components/read-again.ts';
import { incomingWords } from '../i18n/incoming.ts';
import { wordsOf } from '../i18n/language.ts';
import { dayAndTime } from '../i18n/time.ts';
import { ask, OfficeRequestError } from './api.ts';
import { PageElement } from './page-element.ts';

const READ_AGAIN_MS = 2000;
const SHAPES = { stored: 'well', refused: 'stop', twice: 'attention' } as const;

/** The watched folder: what waits in it, and what became of what came. */
@customElement('bf-incoming')
export class Incoming extends PageElement {
  @property({ attribute: false }) read: () => Promise<IncomingView> = () => ask<IncomingView>('/api/incoming');
  @state() private view: IncomingView | null = null;

  constructor() {
    super();
    new ReadAgain(this, READ_AGAIN_MS, () => this.again());
  }

  private again(): void {
    // The page itself says when the server is away.
    this.read().then(
      (view) => {
        const stored = (of: IncomingView) => of.files.find((file) => file.state === 'stored')?.id;
        if (this.view !== null && stored(this.view) !== stored(view)) {
          this.dispatchEvent(new CustomEvent('bf-imported', { bubbles: true, composed: true }));
        }
        this.view = view;
      },
      (error: unknown) => {
        if (!(error instanceof OfficeRequestError)) throw error;
      },
    );
  }

  override render(): TemplateResult | null {
    const { view } = this;
    const words = incomingWords[this.language];
    if (view === null) return null;
    return html`<h2>${words.title}</h2>
      <p class="hint">${words.how(view.folder)}</p>
      ${view.trouble === null ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${words.trouble(view.trouble)}</p>`}
      ${
        view.waiting.length === 0
          ? null
          : html`<h3>${words.waiting}</h3>
              <ul data-list="waiting">
                ${view.waiting.map(({ name, why }) => html`<li data-why=${why}><b>${name}</b> ${words.why[why]}</li>`)}
              </ul>`
      }
      ${view.files.length === 0 ? html`<p>${words.nothing}</p>` : this.table(view.files)}`;
  }

  private table(files: readonly IncomingFile[]): TemplateResult {
    const { columns, title } = incomingWords[this.language];
    return html`<div class="scroll" tabindex="0" role="group" aria-label=${title}>
      <table data-table="incoming">
        <thead>
          <tr>
            ${[columns.file, columns.when, columns.became].map((text) => html`<th class="plain" scope="col">${text}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${files.map((file) => this.row(file))}
        </tbody>
      </table>
    </div>`;
  }

  private row(file: IncomingFile): TemplateResult {
    const words = incomingWords[this.language];
    const { subjects } = wordsOf(this.language).office;
    const when = dayAndTime(new Date(file.at).toISOString(), this.language, { now: new Date(), timeZone: undefined });
    const more = file.counts.refused - file.problems.length;
    return html`<tr data-incoming=${file.name} data-state=${file.state}>
      <td><b>${file.name}</b><br />${words.liesIn(file.movedTo)}</td>
      <td class="when">${when}</td>
      <td>
        <p class="said">
          ${shape(SHAPES[file.state], 20)}
          <b>${words.states[file.state]}</b>
          ${file.state === 'stored' && file.subject !== null ? html`<span>${subjects[file.subject]}: ${words.counts(file.counts)}</span>` : null}
        </p>
        ${file.source === null ? null : html`<p>${words.readBy(file.source)}</p>`}
        ${
          file.state !== 'refused'
            ? null
            : html`<ul>
                ${file.problems.map((problem) => html`<li>${importText(problem, this.language)}</li>`)}
                ${more > 0 ? html`<li>${words.more(more)}</li>` : null}
              </ul>`
        }
      </td>
    </tr>`;
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      .scroll {
        overflow-x: auto;
      }
      td {
        overflow-wrap: anywhere;
      }
      .when {
        white-space: nowrap;
      }
      ul {
        margin: 4px 0;
        padding-left: 20px;
        list-style: disc;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-incoming': Incoming;
  }
}
