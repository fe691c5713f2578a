import { css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { PersonRow } from '#shared/wire/office.ts';
import { SECTIONS, type SectionName, type SettingsFile, type SettingsOverview } from '#shared/wire/settings.ts';
import { shape } from '../components/shapes.ts';
import { cardWords } from '../i18n/settings-cards.ts';
import { settingsWords } from '../i18n/settings.ts';
import { tableWords } from '../i18n/table.ts';
import { ask } from './api.ts';
import { PageElement } from './page-element.ts';
import './settings-cards.ts';
import './settings-earlier.ts';
import './settings-section.ts';
import './settings-text.ts';
import { mayLeave } from './unsaved.ts';

/** The part that is none of a file yet. */
const NEW = 'new-rate-card';

const WAYS = ['forms', 'asText', 'earlier'] as const;
type Way = (typeof WAYS)[number];

interface Part {
  readonly section: SectionName;
  readonly file: SettingsFile;
}

/** The shop's files: each part as a form or as text, and what it was before. */
@customElement('bf-settings')
export class Settings extends PageElement {
  @state() private overview: SettingsOverview | null = null;
  @state() private people: readonly PersonRow[] = [];
  @state() private by: string | null = null;
  @state() private chosen = 'containers';
  @state() private way: Way = 'forms';

  constructor() {
    super();
    this.readFirst(async () => {
      [this.people, this.overview] = await Promise.all([
        ask<readonly PersonRow[]>('/api/who'),
        ask<SettingsOverview>('/api/settings'),
      ]);
    });
  }

  override render(): TemplateResult {
    const words = settingsWords[this.language];
    const { overview } = this;
    if (overview === null)
      return html`${this.alert()}
        <p>${tableWords[this.language].loading}</p>`;
    const parts = partsOf(overview);
    const cards = cardWords[this.language];
    const part = parts.find((each) => keyOf(each) === this.chosen) ?? parts[0];
    return html`<div class="heading">
        <h2>${words.title}</h2>
        <label>
          <span>${words.who}</span>
          <select data-by @change=${(event: Event) => (this.by = (event.target as HTMLSelectElement).value || null)}>
            <option value="">${words.nobody}</option>
            ${this.people.map(({ id, name }) => html`<option value=${id} ?selected=${id === this.by}>${name}</option>`)}
          </select>
        </label>
      </div>
      <p class="hint">${words.how(overview.folder)}</p>
      ${this.alert()} ${this.waiting(overview)}
      <nav class="parts" aria-label=${words.parts}>
        ${parts.map(
          (each) =>
            html`<button
              type="button"
              data-section=${keyOf(each)}
              aria-current=${each === part ? 'true' : 'false'}
              @click=${() => void this.leaving(() => (this.chosen = keyOf(each)))}
            >
              ${words.sections[each.section]}${each.file.file.includes('/') && !each.file.shared ? html`<small> ${cardName(each.file.file)}</small>` : null}
            </button>`,
        )}
        <button
          type="button"
          data-section="new-rate-card"
          aria-current=${this.chosen === NEW ? 'true' : 'false'}
          @click=${() => void this.leaving(() => (this.chosen = NEW))}
        >
          ${cards.add}
        </button>
      </nav>
      ${this.chosen === NEW ? this.newCard(overview) : part === undefined ? null : this.shown(part)}`;
  }

  /** A new rate card, and those that were taken away. */
  private newCard({ removed }: SettingsOverview): TemplateResult {
    const words = cardWords[this.language];
    return html`<section class="seamed" @bf-settings-written=${this.again}>
      <bf-settings-new-card .language=${this.language} .by=${this.by}></bf-settings-new-card>
      ${
        removed.length === 0
          ? null
          : html`<h3>${words.removed}</h3>
              ${removed.map(
                (file) =>
                  html`<details data-removed=${file}>
                    <summary>${file}</summary>
                    <bf-settings-earlier .language=${this.language} .file=${file} .by=${this.by}></bf-settings-earlier>
                  </details>`,
              )}`
      }
    </section>`;
  }

  private async leaving(go: () => void): Promise<void> {
    if (await mayLeave()) go();
  }

  private shown({ section, file }: Part): TemplateResult {
    const words = settingsWords[this.language];
    return html`<section class="seamed" @bf-settings-written=${this.again}>
      <div class="heading">
        <h3>${words.sections[section]} <span class="secondary">${words.ofFile(file.file)}</span></h3>
        <p class="buttons">
          ${WAYS.map(
            (way) =>
              html`<button
                type="button"
                data-way=${way}
                aria-pressed=${way === this.way ? 'true' : 'false'}
                @click=${() => void this.leaving(() => (this.way = way))}
              >
                ${words[way]}
              </button>`,
          )}
        </p>
      </div>
      ${file.shared ? html`<p class="said">${shape('attention', 22)} ${words.shared}</p>` : null}
      ${this.asChosen(section, file.file)}
      ${
        section === 'rate-card' && this.way === 'forms'
          ? html`<bf-settings-remove-card
              .language=${this.language}
              .file=${file.file}
              .by=${this.by}
            ></bf-settings-remove-card>`
          : null
      }
    </section>`;
  }

  private asChosen(section: SectionName, file: string): TemplateResult {
    const { language, by } = this;
    switch (this.way) {
      case 'forms':
        return html`<bf-settings-section
          .language=${language}
          .section=${section}
          .file=${file}
          .by=${by}
        ></bf-settings-section>`;
      case 'asText':
        return html`<bf-settings-text .language=${language} .file=${file} .by=${by}></bf-settings-text>`;
      case 'earlier':
        return html`<bf-settings-earlier .language=${language} .file=${file} .by=${by}></bf-settings-earlier>`;
    }
  }

  /** What of a change does not count yet. */
  private waiting({ atNextStart, whenIdle, network }: SettingsOverview): TemplateResult | null {
    const words = settingsWords[this.language];
    return html`${
      whenIdle.length === 0
        ? null
        : html`<p class="said" data-when-idle>${shape('attention', 22)} ${words.whenIdle(whenIdle.join(', '))}</p>`
    }
    ${
      atNextStart.length === 0
        ? null
        : html`<p class="said" data-at-next-start>
            ${shape('attention', 22)} ${words.atNextStart(atNextStart.join(', '))}
          </p>`
    }
    ${network === null ? null : html`<p class="said" data-network=${network}>${shape('attention', 22)} ${words.network[network]}</p>`}`;
  }

  private readonly again = (): void => {
    void this.attempt(async () => {
      this.overview = await ask<SettingsOverview>('/api/settings');
    });
  };

  static override styles = [
    ...PageElement.styles,
    css`
      .heading label {
        display: flex;
        gap: 10px;
        align-items: center;
      }
      .parts {
        display: flex;
        flex-wrap: wrap;
        gap: 6px 8px;
      }
      .parts button[aria-current='true'],
      button[aria-pressed='true'] {
        font-weight: 700;
        border-bottom: 5px dashed var(--indigo);
      }
      .parts small {
        margin-left: 6px;
        color: var(--walnut);
      }
      .buttons {
        display: flex;
        flex-wrap: wrap;
        gap: 8px;
      }
      section {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 12px;
      }
      .secondary {
        font-weight: 400;
        color: var(--walnut);
      }
      .hint {
        overflow-wrap: anywhere;
      }
    `,
  ];
}

function partsOf({ files }: SettingsOverview): readonly Part[] {
  return SECTIONS.flatMap((section) =>
    files.flatMap((file): Part[] => (file.sections.includes(section) ? [{ section, file }] : [])),
  );
}

function keyOf({ section, file }: Part): string {
  return section === 'rate-card' || section === 'services' ? `${section}:${file.file}` : section;
}

/** "merrow-post" of "rate-cards/merrow-post.yaml" */
function cardName(file: string): string {
  return file.replace(/^.*\//, '').replace(/\.ya?ml$/, '');
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings': Settings;
  }
}
