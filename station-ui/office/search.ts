import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { SearchAnswer, SearchHit } from '#shared/wire/search.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { accessWords } from '../i18n/access.ts';
import { wordsOf } from '../i18n/language.ts';
import { proofWords } from '../i18n/proof.ts';
import { searchWords } from '../i18n/search.ts';
import { tableWords } from '../i18n/table.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError, api } from './api.ts';
import type { OfficeApi } from './api.ts';
import { matchedParts } from './matched-parts.ts';
import { officeStyles } from './office-styles.ts';
import { STANDING } from './order-table.ts';

const AFTER_TYPING_MS = 120;

/** The page of an order, and the orders with a text, as addresses. */
export const orderLink = (id: string): string => `#order/${encodeURIComponent(id)}`;
const ordersLink = (text: string): string => `#orders/${encodeURIComponent(text)}`;

/** One box for everything that the shop has: what is found is listed below it, and leads to the order. */
@customElement('bf-search')
export class Search extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: Pick<OfficeApi, 'search'> = api;
  @state() private text = '';
  @state() private answer: SearchAnswer | null = null;
  @state() private failure = '';
  private asked = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('hashchange', this.close);
    window.addEventListener('pointerdown', this.pressed);
  }

  override disconnectedCallback(): void {
    clearTimeout(this.timer);
    window.removeEventListener('hashchange', this.close);
    window.removeEventListener('pointerdown', this.pressed);
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = searchWords[this.language];
    return html`<search @keydown=${this.keyed}>
      <label
        ><span class="only-read">${words.label}</span>
        <input
          type="search"
          maxlength="200"
          autocomplete="off"
          spellcheck="false"
          placeholder=${words.hint}
          .value=${this.text}
          @input=${this.typed}
      /></label>
      ${this.answer === null && this.failure === '' ? null : this.found()}
    </search>`;
  }

  private found(): TemplateResult {
    const words = searchWords[this.language];
    const { answer, failure } = this;
    return html`<div class="found" role="region" aria-label=${words.results}>
      ${failure === '' ? null : html`<p class="said" role="alert">${shape('stop', 20)} ${failure}</p>`}
      ${answer?.groups.length === 0 ? html`<p role="status">${words.nothing(answer.text)}</p>` : null}
      ${answer?.groups.map(
        ({ kind, hits, more }) =>
          html`<section data-found=${kind}>
            <h2>${words.kinds[kind]}</h2>
            <ul>
              ${hits.map((hit) => html`<li>${this.hit(hit, answer.text)}</li>`)}
            </ul>
            ${more ? html`<p class="more">${words.more}</p>` : null}
          </section>`,
      )}
    </div>`;
  }

  private hit(hit: SearchHit, asked: string): TemplateResult {
    const words = searchWords[this.language];
    const code = hit.code === '' ? null : html`<b>${marked(hit.code, asked)}</b>`;
    const told = html`${code} <span>${marked(hit.words, asked)}</span>`;
    if (hit.kind === 'staff') {
      const role = hit.role === undefined ? null : html`<i>${accessWords[this.language].roles[hit.role]}</i>`;
      return html`<a class="hit" href="#people" @click=${this.close}>${told} ${role}</a>`;
    }
    if (hit.order === null) return html`<span class="hit">${told} <i>${words.unsold}</i></span>`;
    if (hit.orders > 1) {
      return html`<a class="hit" href=${ordersLink(hit.words)} @click=${this.close}
        >${told} <i>${words.orderCount(hit.orders)}</i></a
      >`;
    }
    const state =
      hit.state === null
        ? null
        : html`${shape(STANDING[hit.state], 16)} ${wordsOf(this.language).office.states[hit.state]}`;
    return html`<a class="hit" href=${orderLink(hit.order)} @click=${this.close}
      >${told}
      <span class="state"
        >${hit.kind === 'order' ? null : hit.order}
        ${hit.photos === undefined ? null : html`<i>${proofWords[this.language].count(hit.photos)}</i>`} ${state}</span
      ></a
    >`;
  }

  private readonly typed = (event: Event): void => {
    this.text = (event.target as HTMLInputElement).value;
    clearTimeout(this.timer);
    if (this.text.trim() === '') this.close();
    else this.timer = setTimeout(() => void this.ask(), AFTER_TYPING_MS);
  };

  private async ask(): Promise<void> {
    const number = ++this.asked;
    try {
      const answer = await this.api.search(this.text);
      // An answer that comes late must not take the place of a newer one.
      if (number !== this.asked) return;
      this.answer = answer;
      this.failure = '';
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      if (number !== this.asked) return;
      const words = tableWords[this.language];
      this.answer = null;
      this.failure = words.failed(error.message === '' ? words.noServer : error.message);
    }
  }

  private readonly close = (): void => {
    this.asked += 1;
    clearTimeout(this.timer);
    this.answer = null;
    this.failure = '';
  };

  private readonly pressed = (event: Event): void => {
    if (!event.composedPath().includes(this)) this.close();
  };

  /** Down and up walk through what was found, enter in the box opens the first, escape closes. */
  private readonly keyed = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') {
      this.close();
      this.renderRoot.querySelector('input')?.focus();
      return;
    }
    const links = [...this.renderRoot.querySelectorAll<HTMLAnchorElement>('a.hit')];
    const here = links.findIndex((link) => link.matches(':focus'));
    if (event.key === 'Enter' && here === -1) {
      event.preventDefault();
      links[0]?.click();
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined || links.length === 0) return;
    event.preventDefault();
    const to = here + step;
    if (to < 0) this.renderRoot.querySelector('input')?.focus();
    else links[Math.min(to, links.length - 1)]?.focus();
  };

  static override styles = [
    base,
    officeStyles,
    css`
      :host {
        position: relative;
        flex: 1 1 300px;
        max-width: 560px;
      }
      input {
        width: 100%;
        box-sizing: border-box;
      }
      .found {
        position: absolute;
        z-index: 5;
        inset: calc(100% + 4px) auto auto 0;
        width: max(100%, min(600px, 80vw));
        box-sizing: border-box;
        max-height: min(70vh, 620px);
        overflow-y: auto;
        padding: 8px 14px 12px;
        background: var(--chalk);
        border: 2px solid var(--ink);
      }
      h2 {
        font-size: 17px;
        margin: 6px 0 2px;
        border-bottom: 3px dashed var(--thread);
      }
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
      }
      .hit {
        display: flex;
        gap: 2px 12px;
        align-items: center;
        min-height: 44px;
        padding: 4px 6px;
        color: var(--ink);
        text-decoration: none;
        overflow-wrap: anywhere;
      }
      /* A number is read whole; a long name gives way. */
      .hit > b {
        flex: none;
        max-width: 50%;
      }
      a.hit:hover,
      a.hit:focus {
        background: var(--kraft);
      }
      .state {
        display: inline-flex;
        gap: 6px;
        align-items: center;
        margin-left: auto;
        white-space: nowrap;
      }
      i,
      .more {
        color: var(--walnut);
      }
      mark {
        background: transparent;
        color: inherit;
        text-decoration: underline 3px var(--indigo);
        text-underline-offset: 3px;
      }
    `,
  ];
}

const marked = (text: string, asked: string): readonly (string | TemplateResult)[] =>
  matchedParts(text, asked).map((part) => (part.sought ? html`<mark>${part.text}</mark>` : part.text));

declare global {
  interface HTMLElementTagNameMap {
    'bf-search': Search;
  }
}
