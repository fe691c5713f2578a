import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ImportApplied, ImportPreview, ImportSubject } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import type { OfficeWords } from '../i18n/office-words.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError, api } from './api.ts';
import type { OfficeApi } from './api.ts';
import './import-preview.ts';
import { officeStyles } from './office-styles.ts';

const SUBJECTS: readonly ImportSubject[] = ['pieces', 'orders'];

type Step =
  | { readonly at: 'choose' }
  | { readonly at: 'reading'; readonly file: string; readonly part: number }
  /** `storing` is how much is stored, null before anybody asks */
  | { readonly at: 'preview'; readonly preview: ImportPreview; readonly storing: number | null }
  | { readonly at: 'stored'; readonly applied: ImportApplied };

/** A file in: what it would do is shown first, and stored only when asked. */
@customElement('bf-import')
export class Import extends LitElement {
  @property({ attribute: false }) words!: OfficeWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: Pick<OfficeApi, 'preview' | 'apply'> = api;
  @state() private subject: ImportSubject = 'orders';
  @state() private step: Step = { at: 'choose' };
  @state() private failure = '';
  @state() private over = false;

  override render(): TemplateResult {
    const { words } = this;
    return html`<section class="kraft">
        <div class="ask">
          <h2>${words.importTitle}</h2>
          <fieldset>
            <legend>${words.subject}</legend>
            ${SUBJECTS.map(
              (subject) =>
                html`<label
                  ><input
                    type="radio"
                    name="subject"
                    value=${subject}
                    .checked=${this.subject === subject}
                    @change=${() => (this.subject = subject)}
                  />
                  ${words.subjects[subject]}</label
                >`,
            )}
          </fieldset>
          <label
            class=${`drop ${this.over ? 'over' : ''}`}
            @dragover=${this.dragged}
            @dragleave=${() => (this.over = false)}
            @drop=${this.dropped}
          >
            <b>${words.chooseFile}</b> <span>${words.dropHere}</span>
            <input class="only-read" type="file" accept=".csv,.tsv,.txt,text/csv" @change=${this.chosen} />
          </label>
        </div>
        ${this.step.at === 'reading' ? this.goingOn(words.reading(this.step.file), this.step.part) : null}
        ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
        ${this.step.at === 'stored' ? this.stored(this.step.applied) : null}
      </section>
      ${this.step.at === 'preview' ? this.previewed(this.step.preview, this.step.storing) : null}`;
  }

  private goingOn(told: string, part: number): TemplateResult {
    const percent = `${String(Math.floor(part * 100))} %`;
    return html`<div class="going-on" data-part=${part}>
      <p role="status">${told}</p>
      <progress max="1" .value=${part} aria-label=${told}></progress>
      <b>${percent}</b>
    </div>`;
  }

  private stored(applied: ImportApplied): TemplateResult {
    const text = this.words.stored(applied.added, applied.changed, applied.unchanged, applied.refused);
    return html`<p class="said" role="status" data-import="stored">${shape('well', 22)} ${text}</p>`;
  }

  private previewed(preview: ImportPreview, storing: number | null): TemplateResult {
    const { words } = this;
    const count = preview.counts.added + preview.counts.changed;
    return html`<bf-import-preview .preview=${preview} .words=${words} .language=${this.language}></bf-import-preview>
      <div class="answer">
        ${
          count === 0
            ? html`<p>${words.nothingToStore}</p>`
            : html`<button
                type="button"
                class="main"
                data-import="store"
                ?disabled=${storing !== null}
                @click=${() => this.store(preview)}
              >
                ${words.store(count)}
              </button>`
        }
        <button
          type="button"
          data-import="leave"
          ?disabled=${storing !== null}
          @click=${() => (this.step = { at: 'choose' })}
        >
          ${words.putAway}
        </button>
        ${preview.counts.refused === 0 ? null : html`<p>${words.refusedStayOut}</p>`}
      </div>
      ${storing === null ? null : this.goingOn(words.storing, storing)}`;
  }

  private readonly dragged = (event: DragEvent): void => {
    event.preventDefault();
    this.over = true;
  };

  private readonly dropped = (event: DragEvent): void => {
    event.preventDefault();
    this.over = false;
    void this.read(event.dataTransfer?.files[0]);
  };

  private readonly chosen = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    void this.read(field.files?.[0]).then(() => {
      // The same file may be chosen again after it was mended.
      field.value = '';
    });
  };

  private async read(file: File | undefined): Promise<void> {
    if (file === undefined) return;
    this.failure = '';
    this.step = { at: 'reading', file: file.name, part: 0 };
    await this.attempt(
      async () => {
        const preview = await this.api.preview(this.subject, file, (part) => {
          this.step = { at: 'reading', file: file.name, part };
        });
        this.step = { at: 'preview', preview, storing: null };
      },
      { at: 'choose' },
    );
  }

  private async store(preview: ImportPreview): Promise<void> {
    this.failure = '';
    const storing = (part: number): void => {
      this.step = { at: 'preview', preview, storing: part };
    };
    storing(0);
    await this.attempt(
      async () => {
        this.step = { at: 'stored', applied: await this.api.apply(preview.id, storing) };
        this.dispatchEvent(new CustomEvent('bf-imported', { bubbles: true, composed: true }));
      },
      { at: 'preview', preview, storing: null },
    );
  }

  private async attempt(task: () => Promise<void>, otherwise: Step): Promise<void> {
    try {
      await task();
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.failure = this.words.failed(error.message === '' ? this.words.noServer : error.message);
      this.step = otherwise;
    }
  }

  static override styles = [
    base,
    officeStyles,
    css`
      .ask {
        display: flex;
        flex-wrap: wrap;
        gap: 8px 32px;
        align-items: center;
      }
      section {
        padding: 12px 20px 14px;
        clip-path: polygon(0 0, calc(100% - 22px) 0, 100% 22px, 100% 100%, 0 100%);
      }
      fieldset {
        display: flex;
        gap: 6px 20px;
        align-items: center;
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        float: left;
        margin-right: 12px;
        padding: 0;
        color: var(--walnut);
      }
      fieldset label {
        display: inline-flex;
        gap: 8px;
        align-items: center;
        min-height: 40px;
      }
      input[type='radio'] {
        width: 20px;
        height: 20px;
        accent-color: var(--indigo);
      }
      .drop {
        display: flex;
        flex-wrap: wrap;
        flex: 1 1 320px;
        gap: 4px 12px;
        align-items: center;
        min-height: 48px;
        padding: 8px 16px;
        background: var(--chalk);
        border: 3px dashed var(--walnut);
        cursor: pointer;
      }
      .over {
        border-style: solid;
        border-color: var(--indigo);
      }
      .drop:focus-within {
        outline: 3px solid var(--indigo);
        outline-offset: 2px;
      }
      .going-on {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 16px;
        align-items: center;
        margin-top: 12px;
      }
      progress {
        flex: 1 1 240px;
        height: 18px;
        accent-color: var(--indigo);
      }
      .said {
        margin-top: 12px;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
      .answer {
        display: flex;
        flex-wrap: wrap;
        gap: 10px 16px;
        align-items: center;
        margin-top: 14px;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-import': Import;
  }
}
