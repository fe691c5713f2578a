import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { importText } from '#shared/imports/problems-in-spanish.ts';
import type { ImportLook } from '#shared/wire/imports.ts';
import type { ImportPreview, ImportSubject } from '#shared/wire/office.ts';
import type { Language } from '#shared/words/language.ts';
import { shape } from '../components/shapes.ts';
import { importWords } from '../i18n/import-words.ts';
import type { OfficeWords } from '../i18n/office-words.ts';
import { base } from '../theme/styles.ts';
import { api } from './api.ts';
import type { OfficeApi } from './api.ts';
import { countOf, ImportBatch, type BatchFile } from './import-batch.ts';
import './import-mapping.ts';
import type { ToMap } from './import-mapping.ts';
import './import-preview.ts';
import './import-sources.ts';
import { importsApi, type ImportsApi } from './imports-api.ts';
import { officeStyles } from './office-styles.ts';

const SUBJECTS = ['either', 'pieces', 'orders'] as const;

/** Files in: what they would do is shown first, and stored only when asked. */
@customElement('bf-import')
export class Import extends LitElement {
  @property({ attribute: false }) words!: OfficeWords;
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: Pick<OfficeApi, 'preview' | 'apply'> = api;
  @property({ attribute: false }) imports: ImportsApi = importsApi;
  /** nothing is asked of the server until somebody looks */
  @property({ type: Boolean, reflect: true }) override hidden = false;
  @state() private subject: (typeof SUBJECTS)[number] = 'either';
  @state() private files: readonly BatchFile[] = [];
  @state() private over = false;
  /** whose columns are said by hand just now */
  @state() private mapping: File | null = null;
  private shownMap: {
    readonly look: ImportLook;
    readonly subject: ImportSubject | null;
    readonly toMap: ToMap;
  } | null = null;
  @state() private sourcesVersion = 0;
  private batch: ImportBatch | null = null;

  override render(): TemplateResult {
    const { words, files } = this;
    const also = importWords[this.language];
    const ofSubject = { ...words.subjects, either: also.either };
    const one = files.length === 1 ? files[0] : undefined;
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
                  ${ofSubject[subject]}</label
                >`,
            )}
          </fieldset>
          <label
            class=${`drop ${this.over ? 'over' : ''}`}
            @dragover=${this.dragged}
            @dragleave=${() => (this.over = false)}
            @drop=${this.dropped}
          >
            <b>${also.chooseFiles}</b> <span>${also.dropFiles}</span>
            <input class="only-read" type="file" multiple accept=".csv,.tsv,.txt,text/csv" @change=${this.chosen} />
          </label>
        </div>
        ${one === undefined ? null : this.step(one)}
      </section>
      ${one === undefined ? this.several() : this.detail(one)} ${this.answer()} ${this.mapped()}
      ${this.hidden ? null : this.known()}`;
  }

  private known(): TemplateResult {
    return html`<bf-import-sources
      .language=${this.language}
      .imports=${this.imports}
      .version=${this.sourcesVersion}
    ></bf-import-sources>`;
  }

  private several(): TemplateResult | null {
    if (this.files.length === 0) return null;
    const also = importWords[this.language];
    const { columns } = also;
    return html`<h2 class="files">${also.files(this.files.length)}</h2>
      <p>${this.words.nothingStoredYet} ${also.piecesFirst}</p>
      <table data-table="files">
        <thead>
          <tr>
            ${[columns.file, columns.holds, columns.state].map((title) => html`<th class="plain" scope="col">${title}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${this.files.map(
            (each) =>
              html`<tr data-file=${each.file.name} data-step=${each.step.at}>
                <td><b>${each.file.name}</b></td>
                <td>${each.subject === null ? '' : this.words.subjects[each.subject]}</td>
                <td>${this.step(each)} ${this.folded(each)}</td>
              </tr>`,
          )}
        </tbody>
      </table>`;
  }

  /** Where a file stands, in a line. */
  private step({ file, step }: BatchFile): TemplateResult | null {
    const { words } = this;
    const also = importWords[this.language];
    switch (step.at) {
      case 'waiting':
        return html`<p>${also.waits}</p>`;
      case 'reading':
        return this.goingOn(words.reading(file.name), step.part);
      case 'storing':
        return this.goingOn(words.storing, step.part);
      case 'preview': {
        const { counts, unchanged } = step.preview;
        const told = also.would(counts.added, counts.changed, unchanged, counts.refused);
        if (this.files.length === 1) return null;
        return html`<p class="said">${shape(counts.refused === 0 ? 'well' : 'attention', 20)} ${told}</p>`;
      }
      case 'stored': {
        const { added, changed, unchanged, refused } = step.applied;
        return html`<p class="said" role="status" data-import="stored">
            ${shape('well', 22)} ${words.stored(added, changed, unchanged, refused)}
          </p>
          ${refused === 0 ? null : html`<bf-import-preview .preview=${step.preview} .words=${words} .language=${this.language} .onlyRefused=${true}></bf-import-preview>`}`;
      }
      case 'failed': {
        const message = step.message === '' ? words.noServer : importText(step.message, this.language);
        return html`<p class="said failure" role="alert">${shape('stop', 22)} ${words.failed(message)}</p>
          ${step.mappable ? this.mapButton(file) : null}`;
      }
    }
  }

  private mapButton(file: File): TemplateResult {
    return html`<button type="button" data-import="map" @click=${() => (this.mapping = file)}>
      ${importWords[this.language].mapByHand}
    </button>`;
  }

  private goingOn(told: string, part: number): TemplateResult {
    const percent = `${String(Math.floor(part * 100))} %`;
    return html`<div class="going-on" data-part=${part}>
      <p role="status">${told}</p>
      <progress max="1" .value=${part} aria-label=${told}></progress>
      <b>${percent}</b>
    </div>`;
  }

  private folded(each: BatchFile): TemplateResult | null {
    const preview = previewOf(each);
    if (preview === null) return null;
    return html`<details>
      <summary>${importWords[this.language].show}</summary>
      ${this.previewed(preview, each.file)}
    </details>`;
  }

  private detail(each: BatchFile): TemplateResult | null {
    const preview = previewOf(each);
    return preview === null ? null : this.previewed(preview, each.file);
  }

  private previewed(preview: ImportPreview, file: File): TemplateResult {
    return html`<bf-import-preview
        .preview=${preview}
        .words=${this.words}
        .language=${this.language}
      ></bf-import-preview>
      <p class="by-hand">${this.mapButton(file)}</p>`;
  }

  /** What is asked once for all of them. */
  private answer(): TemplateResult | null {
    const { words, files } = this;
    const also = importWords[this.language];
    const ready = files.filter(({ step }) => step.at === 'preview');
    const busy = files.some(({ step }) => step.at === 'reading' || step.at === 'storing' || step.at === 'waiting');
    const previews = files.map(previewOf).filter((each) => each !== null);
    if (previews.length === 0 || (ready.length === 0 && !busy)) return null;
    const storable = previews.filter((preview) => countOf(preview) > 0);
    const count = storable.reduce((sum, preview) => sum + countOf(preview), 0);
    const refused = previews.some(({ counts }) => counts.refused > 0);
    return html`<div class="answer">
      ${
        count === 0
          ? html`<p>${words.nothingToStore}</p>`
          : html`<button type="button" class="main" data-import="store" ?disabled=${busy} @click=${this.store}>
              ${files.length === 1 ? words.store(count) : also.storeAll(count, storable.length)}
            </button>`
      }
      <button type="button" data-import="leave" ?disabled=${busy} @click=${this.leave}>${words.putAway}</button>
      ${refused ? html`<p>${words.refusedStayOut}</p>` : null}
    </div>`;
  }

  private mapped(): TemplateResult | null {
    const file = this.files.find((each) => each.file === this.mapping);
    if (file?.look === null || file?.look === undefined) return null;
    const known = this.shownMap;
    const toMap =
      known?.look === file.look && known.subject === file.subject ? known.toMap : this.mapOf(file, file.look);
    return html`<bf-import-mapping
      .language=${this.language}
      .imports=${this.imports}
      .toMap=${toMap}
      @bf-mapping-left=${() => (this.mapping = null)}
      @bf-mapped=${(event: CustomEvent<{ subject: ImportSubject }>) => {
        this.mapping = null;
        this.sourcesVersion += 1;
        void this.batch?.lookAgain(file.file, event.detail.subject).then(() => (this.sourcesVersion += 1));
      }}
    ></bf-import-mapping>`;
  }

  /** One thing for as long as the form is open: another one would begin anew, and what was chosen would be gone. */
  private mapOf({ file, subject }: BatchFile, look: ImportLook): ToMap {
    const toMap = { title: file.name, ...look, subject: subject ?? look.subject ?? 'orders' };
    this.shownMap = { look, subject, toMap };
    return toMap;
  }

  private readonly dragged = (event: DragEvent): void => {
    event.preventDefault();
    this.over = true;
  };

  private readonly dropped = (event: DragEvent): void => {
    event.preventDefault();
    this.over = false;
    void this.read([...(event.dataTransfer?.files ?? [])]);
  };

  private readonly chosen = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    void this.read([...(field.files ?? [])]).then(() => {
      // The same file may be chosen again after it was mended.
      field.value = '';
    });
  };

  private async read(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    this.mapping = null;
    const { api: office, imports } = this;
    const batch: ImportBatch = new ImportBatch(
      {
        api: office,
        imports,
        onChange: (now) => {
          // Another choice may have been made meanwhile.
          if (this.batch === batch) this.files = now;
        },
      },
      files,
    );
    this.batch = batch;
    await batch.lookThrough(this.subject === 'either' ? null : this.subject);
  }

  private readonly leave = (): void => {
    this.batch = null;
    this.files = [];
    this.mapping = null;
  };

  private readonly store = (): void => {
    void this.batch?.store().then(() => {
      this.dispatchEvent(new CustomEvent('bf-imported', { bubbles: true, composed: true }));
    });
  };

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
      .files {
        margin-top: 18px;
      }
      .by-hand {
        margin-top: 12px;
      }
      details {
        margin-top: 8px;
      }
      summary {
        min-height: 44px;
        align-content: center;
        cursor: pointer;
      }
      bf-import-sources,
      bf-import-mapping {
        margin-top: 24px;
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

/** The preview of a file that is looked through, also while it is stored. */
function previewOf({ step }: BatchFile): ImportPreview | null {
  return step.at === 'preview' || step.at === 'storing' ? step.preview : null;
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-import': Import;
  }
}
