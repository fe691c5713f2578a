import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { FirstRunView } from '#shared/wire/first-run.ts';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import { shape } from '../components/shapes.ts';
import { configText, placeIn } from '../i18n/config-problems.ts';
import { firstRunWords } from '../i18n/first-run.ts';
import { tableWords } from '../i18n/table.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';

/** One step of the guide: it shows what is there, and saves what is said. */
export abstract class FirstRunStep extends PageElement {
  @property({ attribute: false }) view!: FirstRunView;
  @state() private problems: readonly ConfigProblem[] = [];
  @state() private busy = false;

  /** Saves at the server; the guide is told what the shop then is. What is wrong is named, place by place. */
  protected async save(path: string, body: unknown): Promise<boolean> {
    this.failure = '';
    this.problems = [];
    this.busy = true;
    this.dispatchEvent(new CustomEvent('bf-first-run-asks', { bubbles: true, composed: true }));
    try {
      const view = await ask<FirstRunView>(`/api/first-run/${path}`, sent(body));
      this.dispatchEvent(new CustomEvent('bf-first-run', { detail: view, bubbles: true, composed: true }));
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.problems = error.problems;
      const words = tableWords[this.language];
      if (error.problems.length === 0)
        this.failure = words.failed(error.message === '' ? words.noServer : error.message);
      return false;
    } finally {
      this.busy = false;
    }
  }

  protected wrong(): TemplateResult {
    const said = (each: ConfigProblem) =>
      `${this.placeOf(each)} ${configText(each.expected, this.language)}; ${configText(each.found, this.language)}`;
    return html`${this.alert()}
    ${
      this.problems.length === 0
        ? null
        : html`<ul class="wrong" role="alert">
            ${this.problems.filter((each) => this.placeOf(each) !== '').map((each) => html`<li class="said">${shape('stop', 20)} ${said(each)}</li>`)}
          </ul>`
    }`;
  }

  /** Where a mistake is, in the words of the form where it has any; empty for what another one says already. */
  protected placeOf({ file, line, path }: ConfigProblem): string {
    return placeIn(file, line, path);
  }

  protected saveButton(): TemplateResult {
    return html`<p>
      <button type="submit" class="main" data-save ?disabled=${this.busy}>${firstRunWords[this.language].save}</button>
    </p>`;
  }

  static override styles = [
    ...[PageElement.styles].flat(),
    css`
      form {
        display: grid;
        gap: 14px;
      }
      .fields {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(220px, 1fr));
        gap: 10px 16px;
      }
      .fields label,
      .row label {
        display: grid;
        gap: 2px;
        align-content: start;
      }
      .fields span,
      .row span {
        color: var(--walnut);
      }
      .fields :is(input, select) {
        width: 100%;
        box-sizing: border-box;
      }
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 14px;
        align-items: end;
        padding: 8px 0;
        border-bottom: 1px solid var(--kraft);
      }
      textarea {
        font: inherit;
        padding: 6px 10px;
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--chalk);
        color: var(--ink);
      }
      .scroll {
        overflow-x: auto;
      }
      td {
        vertical-align: middle;
      }
      td label {
        display: inline-flex;
        gap: 8px;
        align-items: center;
        min-height: 44px;
        cursor: pointer;
      }
      input[type='checkbox'] {
        width: 22px;
        height: 22px;
        accent-color: var(--indigo);
      }
      .wrong {
        display: grid;
        gap: 4px;
        color: var(--madder);
        font-weight: 700;
        overflow-wrap: anywhere;
      }
    `,
  ];
}

/** What a field of a form holds. */
export function fieldText(form: HTMLFormElement, name: string): string {
  const value = new FormData(form).get(name);
  return typeof value === 'string' ? value.trim() : '';
}
