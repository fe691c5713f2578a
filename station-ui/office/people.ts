import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { PeopleView, PersonRow, ProgressView, SkillView } from '#shared/wire/people.ts';
import type { Language } from '#shared/words/language.ts';
import { FirstReading } from '../components/first-reading.ts';
import '../components/progress.ts';
import { shape } from '../components/shapes.ts';
import { peopleWords, practiceWords } from '../i18n/practice.ts';
import { dayAndTime } from '../i18n/time.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';
import { peopleApi, type PeopleApi } from './people-api.ts';

/** Who works here, by name: skills, and of one person at a time how that person gets on. */
@customElement('bf-people')
export class People extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: PeopleApi = peopleApi;
  @state() private view: PeopleView | null = null;
  @state() private shown: ProgressView | null = null;
  /** the skill about to be taken back */
  @state() private asked: string | null = null;
  @state() private said = '';
  @state() private failure = '';

  constructor() {
    super();
    new FirstReading(this, (again) =>
      this.trying(async () => {
        this.view = await this.api.people();
      }, again),
    );
  }

  private get words() {
    return peopleWords[this.language];
  }

  override render(): TemplateResult {
    const { words, view } = this;
    return html`<h2>${words.title}</h2>
      <p class="secondary how">${words.how}${view === null ? '' : ` ${words.gates[view.gate]}`}</p>
      <p role="status" class="said">${this.said}</p>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${view === null ? html`<p>${words.loading}</p>` : this.table(view)}
      ${this.shown === null || view === null ? null : this.person(this.shown, view)}`;
  }

  private table(view: PeopleView): TemplateResult {
    const { words } = this;
    return html`<div class="scroll" tabindex="0" role="region" aria-label=${words.title}>
      <table>
        <thead>
          <tr>
            ${[words.person, words.role, words.language, words.orders].map((each) => html`<th class="plain" scope="col">${each}</th>`)}
            ${view.skills.map((skill) => html`<th class="plain" scope="col">${skill.name[this.language]}</th>`)}
            <td></td>
          </tr>
        </thead>
        <tbody>
          ${view.people.map((person) => this.row(person))}
        </tbody>
      </table>
    </div>`;
  }

  private row(person: PersonRow): TemplateResult {
    const { words } = this;
    const open = this.shown?.id === person.id;
    return html`<tr data-person=${person.id}>
      <th class="plain" scope="row">${person.name}</th>
      <td>${words.roles[person.role]}</td>
      <td>${words.languages[person.language]}</td>
      <td>${person.orders}</td>
      ${person.skills.map(({ signed, ready }) => {
        const standing = signed ? 'signed' : ready ? 'ready' : 'open';
        const mark = signed ? 'well' : ready ? 'attention' : 'waiting';
        return html`<td><span class="said">${shape(mark, 18)} ${words.states[standing]}</span></td>`;
      })}
      <td>
        <button
          type="button"
          data-look=${person.id}
          aria-expanded=${open ? 'true' : 'false'}
          aria-label=${`${open ? words.close : words.look}: ${person.name}`}
          @click=${() => void this.look(open ? null : person.id)}
        >
          ${open ? words.close : words.look}
        </button>
      </td>
    </tr>`;
  }

  private person(progress: ProgressView, view: PeopleView): TemplateResult {
    const { words, language } = this;
    const practice = practiceWords[language].progress;
    return html`<section aria-label=${practice.title(progress.name)} data-shown=${progress.id}>
      <h3>${practice.title(progress.name)}</h3>
      <bf-progress .progress=${progress} .language=${language}></bf-progress>
      <h3>${practice.skills}</h3>
      <table>
        <thead>
          <tr>
            ${[practice.skill, practice.state].map((each) => html`<th class="plain" scope="col">${each}</th>`)}
            <td></td>
          </tr>
        </thead>
        <tbody>
          ${progress.skills.map((skill) => this.skill(progress, skill, view))}
        </tbody>
      </table>
      <p class="record">
        <a
          class="button"
          target="_blank"
          rel="noopener"
          href=${this.api.recordAddress(progress.id, language)}
          data-record
          >${words.record}</a
        >
        ${view.benches.map(
          (bench) =>
            html`<button
              type="button"
              data-print-at=${bench.id}
              @click=${() => void this.print('record', progress.id, bench)}
            >
              ${words.printAt(bench.name)}
            </button>`,
        )}
        ${view.benches.map(
          (bench) =>
            html`<button
              type="button"
              data-badge-at=${bench.id}
              @click=${() => void this.print('badge', progress.id, bench)}
            >
              ${words.printBadgeAt(bench.name)}
            </button>`,
        )}
      </p>
    </section>`;
  }

  private skill(progress: ProgressView, skill: SkillView, view: PeopleView): TemplateResult {
    const { words, language } = this;
    const practice = practiceWords[language];
    const name = skill.name[language];
    const far = skill.exercises.map(
      ({ exercise, inARow, needed }) =>
        `${practice.exercises[exercise]}: ${practice.inARow(Math.min(inARow, needed), needed)}`,
    );
    const standing =
      skill.signed === null
        ? `${skill.ready ? practice.ready : practice.notSigned} (${far.join('; ')})`
        : practice.signed(
            skill.signed.by,
            dayAndTime(new Date(skill.signed.at).toISOString(), language, { now: new Date(), timeZone: view.timeZone }),
          );
    return html`<tr data-skill=${skill.id}>
      <th class="plain" scope="row">${name}</th>
      <td>${standing}</td>
      <td>
        ${
          skill.signed === null
            ? null
            : this.asked === skill.id
              ? html`<span class="both"
                  ><button
                    type="button"
                    class="main"
                    data-withdraw-sure=${skill.id}
                    @click=${() => void this.withdraw(progress.id, skill.id, name)}
                  >
                    ${words.withdrawSure(name)}
                  </button>
                  <button type="button" @click=${() => (this.asked = null)}>${words.keep}</button></span
                >`
              : html`<button type="button" data-withdraw=${skill.id} @click=${() => (this.asked = skill.id)}>
                  ${words.withdraw}
                </button>`
        }
      </td>
    </tr>`;
  }

  private async look(id: string | null): Promise<void> {
    this.asked = null;
    this.said = '';
    await this.trying(async () => {
      this.shown = id === null ? null : await this.api.progress(id);
    });
  }

  private async withdraw(id: string, skill: string, name: string): Promise<void> {
    await this.trying(async () => {
      this.shown = await this.api.withdraw(id, skill);
      this.view = await this.api.people();
      this.said = this.words.withdrawn(name);
    });
    this.asked = null;
  }

  private async print(what: 'record' | 'badge', id: string, bench: PeopleView['benches'][number]): Promise<void> {
    await this.trying(async () => {
      await this.api.print(what, id, bench.id, this.language);
      this.said = this.words.printed(bench.name);
    });
  }

  private async trying(what: () => Promise<void>, again = false): Promise<boolean> {
    if (!again) this.failure = '';
    try {
      await what();
      if (again) this.failure = '';
      return true;
    } catch (error) {
      if (!(error instanceof OfficeRequestError)) throw error;
      this.failure = this.words.failed(error.message === '' ? this.words.noServer : error.message);
      return false;
    }
  }

  static override styles = [
    base,
    officeStyles,
    css`
      .how {
        max-width: 78ch;
        margin-bottom: 10px;
      }
      .scroll {
        overflow-x: auto;
      }
      tbody th {
        border-bottom: 1px solid var(--kraft);
        vertical-align: middle;
      }
      td {
        vertical-align: middle;
      }
      section {
        display: flex;
        flex-direction: column;
        gap: 12px;
        margin-top: 20px;
        padding: 14px 20px 18px;
        border: 3px dashed var(--thread);
      }
      .record,
      .both {
        display: flex;
        flex-wrap: wrap;
        gap: 10px;
      }
      .failure {
        color: var(--madder);
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-people': People;
  }
}
