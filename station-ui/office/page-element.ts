import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Language } from '#shared/words/language.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import { tableWords } from '../i18n/table.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';

/** A page of the office: its language, and what the server said when it would not. */
export abstract class PageElement extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @state() protected failure = '';

  /** What the page cannot do without is read as it comes onto the page, and again as long as that failed. */
  protected readFirst(task: () => Promise<void>): void {
    new FirstReading(this, (again) => this.attempt(task, again));
  }

  /**
   * Does something at the server; what it refuses is shown, and nothing else happens. True when it was done.
   * @param again of something that has failed: it stays told until it is done
   */
  protected async attempt(task: () => Promise<void>, again = false): Promise<boolean> {
    if (!again) this.failure = '';
    try {
      await task();
      if (again) this.failure = '';
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      const words = tableWords[this.language];
      this.failure = words.failed(error.message === '' ? words.noServer : error.message);
      return false;
    }
  }

  protected alert(): TemplateResult | null {
    if (this.failure === '') return null;
    return html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`;
  }

  static override styles = [
    base,
    officeStyles,
    css`
      :host {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 18px;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 16px;
        align-items: end;
      }
      .tools label {
        display: grid;
        gap: 2px;
      }
      .tools label > span {
        color: var(--walnut);
      }
      input:not([type='checkbox']):not([type='radio']) {
        font: inherit;
        min-height: 44px;
        padding: 6px 10px;
        border: 2px solid var(--ink);
        border-radius: 0;
        background: var(--chalk);
        color: var(--ink);
      }
      .heading {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 20px;
        justify-content: space-between;
        align-items: center;
      }
      .hint {
        color: var(--walnut);
        max-width: 80ch;
      }
      .seamed {
        border-top: 3px dashed var(--thread);
        padding-top: 14px;
      }
    `,
  ];
}

/** A JSON request. */
export function sent(body: unknown): RequestInit {
  return { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
}
