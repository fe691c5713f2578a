import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type { Plain, SectionName, SettingsEntry, SettingsSection, SettingsWritten } from '#shared/wire/settings.ts';
import '../components/data-table.ts';
import { columnsOf } from '../components/table-rows.ts';
import { shape } from '../components/shapes.ts';
import { fieldName } from '../i18n/settings-fields.ts';
import { optionName } from '../i18n/settings-options.ts';
import { settingsWords } from '../i18n/settings.ts';
import { OfficeRequestError, ask } from './api.ts';
import { PageElement, sent } from './page-element.ts';
import { isMapping, shortly, valueAt } from './settings-draft.ts';
import { draftProblems, drafted, undrafted } from './settings-drafting.ts';
import './settings-form.ts';
import { problemList, type Said } from './settings-problems.ts';
import { settingsStyles } from './settings-styles.ts';
import { holdUnsaved, letGo, mayLeave, type Unsaved } from './unsaved.ts';

/** The entry that is being changed, as it is called now (null: a new one) and as it should be. */
interface Opened {
  readonly entry: string | null;
  readonly id: string;
  /** see {@link drafted} */
  readonly draft: Plain;
}

/** A section of one file: its entries as a table, and one of them as a form. */
@customElement('bf-settings-section')
export class SettingsSectionElement extends PageElement implements Unsaved {
  @property() section: SectionName = 'shop';
  @property() file = '';
  @property({ attribute: false }) by: string | null = null;
  @state() private view: SettingsSection | null = null;
  @state() private opened: Opened | null = null;
  @state() private removing: string | null = null;
  @state() private problems: readonly ConfigProblem[] = [];
  @state() private said: Said | null = null;
  @state() private meanwhile = false;
  /** the draft as it was opened, and whether somebody has typed since */
  private begun = '';
  private touched = false;

  get isUnsaved(): boolean {
    return this.opened !== null && (this.touched || JSON.stringify(this.opened) !== this.begun);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    holdUnsaved(this);
  }

  override disconnectedCallback(): void {
    letGo(this);
    super.disconnectedCallback();
  }

  override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('section') || changed.has('file')) void this.read();
  }

  override render(): TemplateResult {
    const words = settingsWords[this.language];
    const { view } = this;
    if (view === null) return html`${this.alert()}${problemList(this.problems, this.language)}`;
    return html`${this.alert()}
      ${
        this.meanwhile
          ? html`<p class="said refused" role="alert">
              ${shape('stop', 22)} ${words.meanwhile}
              <button type="button" data-read-again @click=${() => void this.read()}>${words.readAgain}</button>
            </p>`
          : null
      }
      <p role="status" class="said" data-said>
        ${this.said === null ? null : html`${shape('well', 22)} ${words[this.said]}`}
      </p>
      ${view.many ? this.table(view) : null} ${this.removing === null ? null : this.confirmRemoving(this.removing)}
      ${this.form(view)}`;
  }

  private table(view: SettingsSection): TemplateResult {
    const words = settingsWords[this.language];
    const name = ({ id, value }: SettingsEntry) => shortly(valueAt(value, ['name']), this.language) || id;
    return html`<bf-data-table
        .language=${this.language}
        .name=${words.sections[view.section]}
        .keyOf=${(row: unknown) => (row as SettingsEntry).id}
        .rows=${view.entries}
        .columns=${columnsOf<SettingsEntry>([
          { key: 'id', title: words.entryId, value: ({ id }) => id },
          { key: 'name', title: fieldName(view.section, 'name', this.language) ?? '', value: name },
          ...view.columns.map((path) => ({
            key: path,
            title: fieldName(view.section, path.split('.')[0] ?? path, this.language) ?? path,
            value: ({ value }: SettingsEntry) => this.cell(value, path),
          })),
          {
            key: 'change',
            title: '',
            value: () => '',
            cell: (row) =>
              html`<span class="nowrap">
                <button
                  type="button"
                  data-edit=${row.id}
                  @click=${() => void this.leaving(() => this.open(row, row.id))}
                >
                  ${words.edit}<span class="only-read"> ${row.id}</span>
                </button>
                <button
                  type="button"
                  data-copy=${row.id}
                  @click=${() => void this.leaving(() => this.open(row, `${row.id}-2`))}
                >
                  ${words.copy}<span class="only-read"> ${row.id}</span>
                </button>
                <button type="button" data-remove=${row.id} @click=${() => void this.leaving(() => this.ask(row.id))}>
                  ${words.remove}<span class="only-read"> ${row.id}</span>
                </button>
              </span>`,
          },
        ])}
      ></bf-data-table>
      <p>
        <button type="button" data-add @click=${() => void this.leaving(() => this.open(null, ''))}>
          ${words.add}
        </button>
      </p>`;
  }

  private cell(value: Plain, path: string): string {
    const found = valueAt(value, path.split('.'));
    return typeof found === 'string' ? optionName(path, found, this.language) : shortly(found, this.language);
  }

  private confirmRemoving(id: string): TemplateResult {
    const words = settingsWords[this.language];
    return html`<div class="seamed" role="group" aria-label=${words.reallyRemove(id)}>
      <p class="buttons">
        <b>${words.reallyRemove(id)}</b>
        <button type="button" class="main" data-really-remove @click=${() => void this.takeAway(id)}>
          ${words.remove}
        </button>
        <button type="button" @click=${() => this.close()}>${words.keep}</button>
      </p>
      ${this.refusal(this.problems)}
    </div>`;
  }

  private form(view: SettingsSection): TemplateResult | null {
    const words = settingsWords[this.language];
    const { opened } = this;
    if (opened === null) return null;
    const begin = this.beginOf(view, opened);
    const own = this.problems.flatMap((problem) =>
      begin === '' || problem.path === begin || problem.path.startsWith(`${begin}.`)
        ? [{ ...problem, path: begin === '' ? problem.path : problem.path.slice(begin.length + 1) }]
        : [],
    );
    const keys = new Set(view.fields.map(({ key }) => key));
    const atFields = own.filter(
      ({ file, path }) => file === view.file && keys.has(path.split(/[.[]/)[0] ?? '') && path !== '',
    );
    const others = this.problems.filter(
      (problem) =>
        !atFields.some(
          ({ path, expected }) =>
            problem.expected === expected && problem.path === (begin === '' ? path : `${begin}.${path}`),
        ),
    );
    return html`<form
      class=${view.many ? 'seamed' : ''}
      data-form
      @input=${() => (this.touched = true)}
      @submit=${(event: Event) => {
        event.preventDefault();
        if (this.opened !== null) void this.save(view, this.opened);
      }}
    >
      ${
        view.many
          ? html`<h3>${opened.entry === null ? words.adding : words.changing(opened.entry)}</h3>
              ${
                view.listed
                  ? null
                  : html`<p class="tools">
                      <label>
                        <span>${words.entryId}</span>
                        <input
                          name="id"
                          required
                          autocomplete="off"
                          .value=${opened.id}
                          @input=${(event: Event) =>
                            (this.opened = { ...opened, id: (event.target as HTMLInputElement).value.trim() })}
                        />
                        <small>${words.entryIdHint}</small>
                      </label>
                    </p>`
              }`
          : null
      }
      ${this.refusal(others, this.problems.length > 0)}
      <bf-settings-form
        .language=${this.language}
        .section=${view.section}
        .fields=${view.fields}
        .draft=${opened.draft}
        .problems=${atFields}
        @bf-draft=${(event: CustomEvent<Plain>) => {
          if (this.opened !== null) this.opened = { ...this.opened, draft: event.detail };
        }}
      ></bf-settings-form>
      <p class="buttons end">
        <button type="submit" class="main" data-save>${words.save}</button>
        <button type="button" @click=${() => this.close()}>${words.cancel}</button>
      </p>
    </form>`;
  }

  private refusal(problems: readonly ConfigProblem[], any = problems.length > 0): TemplateResult | null {
    if (!any) return null;
    return html`<div role="alert" data-refused>
      <p class="said refused">${shape('stop', 22)} ${settingsWords[this.language].problemsHere}</p>
      ${problemList(problems, this.language)}
    </div>`;
  }

  /** What the paths of an entry's problems begin with. */
  private beginOf(view: SettingsSection, { entry, id }: Opened): string {
    if (!view.many) return '';
    if (!view.listed) return `${view.at}.${id}`;
    const at = view.entries.findIndex((each) => each.id === entry);
    return `${view.at}[${String(at === -1 ? view.entries.length : at)}]`;
  }

  private async read(keepSaid = false): Promise<void> {
    this.close();
    if (!keepSaid) this.said = null;
    this.meanwhile = false;
    const asked = new URLSearchParams({ section: this.section, file: this.file });
    await this.tried(async () => {
      this.view = await ask<SettingsSection>(`/api/settings/section?${asked.toString()}`);
      this.openWhole();
    });
  }

  /** Does something that takes the place of what is open. */
  private async leaving(go: () => void): Promise<void> {
    if (await mayLeave()) go();
  }

  private begin(opened: Opened): void {
    this.opened = opened;
    this.touched = false;
    this.begun = JSON.stringify(opened);
  }

  private open(row: SettingsEntry | null, id: string): void {
    this.problems = [];
    this.removing = null;
    this.said = null;
    const copied = row !== null && row.id !== id;
    const value = row?.value ?? {};
    const listed = this.view?.listed === true && copied && isMapping(value);
    const { fields = [] } = this.view ?? {};
    this.begin({
      entry: copied || row === null ? null : row.id,
      id,
      draft: drafted({ is: 'group', fields }, listed ? { ...value, id } : value),
    });
    void this.updateComplete.then(() => this.renderRoot.querySelector('form')?.scrollIntoView({ block: 'nearest' }));
  }

  private ask(id: string): void {
    this.opened = null;
    this.problems = [];
    this.said = null;
    this.removing = id;
  }

  private close(): void {
    this.problems = [];
    this.removing = null;
    this.opened = null;
    this.openWhole();
  }

  /** Where a section has one entry alone, that one is open. */
  private openWhole(): void {
    const { many, fields, entries: [whole] = [] } = this.view ?? {};
    if (many !== false || whole === undefined || fields === undefined) return;
    this.begin({ entry: '', id: '', draft: drafted({ is: 'group', fields }, whole.value) });
  }

  private async save(view: SettingsSection, opened: Opened): Promise<void> {
    const { entry, id, draft } = opened;
    const { section, file, digest, fields } = view;
    const begin = this.beginOf(view, opened);
    const problems = draftProblems({ is: 'group', fields }, draft, begin).map((each) => ({
      ...each,
      file,
      line: null,
    }));
    if (problems.length > 0) {
      this.problems = problems;
      await this.goToWrong();
      return;
    }
    const value = undrafted({ is: 'group', fields }, draft);
    const own = view.listed ? shortly(valueAt(value, ['id']), 'en') : id;
    await this.change('/api/settings/entry', { section, file, digest, entry, id: own, value });
  }

  private async takeAway(id: string): Promise<void> {
    if (this.view === null) return;
    const { section, file, digest } = this.view;
    await this.change('/api/settings/remove', { section, file, digest, entry: id });
  }

  private async change(path: string, body: object): Promise<void> {
    await this.tried(async () => {
      const written = await ask<SettingsWritten>(path, sent({ ...body, by: this.by }));
      this.said = written.digest === this.view?.digest ? 'same' : 'written';
      this.dispatchEvent(new CustomEvent('bf-settings-written', { bubbles: true, composed: true }));
      await this.read(true);
      if (written.problems.length > 0) this.said = 'stillWrong';
    });
  }

  /** What the check refuses is shown at its fields; the rest as on every page. */
  private async tried(task: () => Promise<void>): Promise<void> {
    this.problems = [];
    await this.attempt(async () => {
      try {
        await task();
      } catch (error) {
        if (!(error instanceof OfficeRequestError)) throw error;
        this.problems = error.problems;
        this.meanwhile = error.code === 'changed-meanwhile';
        if (error.problems.length === 0 && !this.meanwhile) throw error;
        await this.goToWrong();
      }
    });
  }

  private async goToWrong(): Promise<void> {
    await this.updateComplete;
    this.renderRoot.querySelector('[data-refused]')?.scrollIntoView({ block: 'nearest' });
    const form = this.renderRoot.querySelector('bf-settings-form');
    await form?.updateComplete;
    form?.goToWrong();
  }

  static override styles = [
    ...PageElement.styles,
    settingsStyles,
    css`
      form {
        display: grid;
        gap: 14px;
      }
      .end {
        padding-top: 6px;
      }
      small {
        color: var(--walnut);
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-settings-section': SettingsSectionElement;
  }
}
