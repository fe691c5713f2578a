import { LitElement, css, html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { CLOSE_ENOUGH_DB, TAKES } from '#shared/voice/enrolment.ts';
import type { EnrolledView, TakeAnswer, VoicesView } from '#shared/wire/voice-takes.ts';
import type { Language } from '#shared/words/language.ts';
import { MicrophoneError } from '../audio/microphone.ts';
import { FirstReading } from '../components/first-reading.ts';
import { shape } from '../components/shapes.ts';
import { wordsOf } from '../i18n/language.ts';
import { voicesWords, type VoicesWords } from '../i18n/voices.ts';
import { base } from '../theme/styles.ts';
import { OfficeRequestError } from './api.ts';
import { officeStyles } from './office-styles.ts';
import { Recording } from './recording.ts';
import { voicesApi, type VoicesApi } from './voices-api.ts';

/** Each person's voice at each bench: takes of every phrase, what was understood, and what to say instead. */
@customElement('bf-voices')
export class Voices extends LitElement {
  @property({ attribute: false }) language: Language = 'en';
  @property({ attribute: false }) api: VoicesApi = voicesApi;
  @state() private view: VoicesView | null = null;
  @state() private staff = '';
  @state() private bench = '';
  /** what is still to be said, the first one now */
  @state() private toSay: readonly string[] = [];
  @state() private said = 0;
  @state() private recording = false;
  @state() private level = -100;
  @state() private last: TakeAnswer | null = null;
  @state() private failure = '';
  @state() private message = '';
  private answers: TakeAnswer[] = [];
  private readonly recorder = new Recording(
    (db) => (this.level = Math.round(db)),
    () => this.fail(new MicrophoneError('unplugged')),
  );

  constructor() {
    super();
    new FirstReading(this, (again) => this.trying(() => this.read(), again));
  }

  override disconnectedCallback(): void {
    this.recorder.stop();
    super.disconnectedCallback();
  }

  override render(): TemplateResult {
    const words = voicesWords[this.language];
    const { view } = this;
    return html`<h2>${words.title}</h2>
      <p class="secondary how">${words.how}</p>
      <p role="status" class="said">${this.message}</p>
      ${this.failure === '' ? null : html`<p class="said failure" role="alert">${shape('stop', 22)} ${this.failure}</p>`}
      ${view === null ? null : html`${this.toSay.length === 0 ? this.chooser(view, words) : this.prompt(words)}${this.results(view, words)}`}`;
  }

  private chooser(view: VoicesView, words: VoicesWords): TemplateResult {
    const options = (all: VoicesView['staff'], chosen: string) =>
      all.map(({ id, name }) => html`<option value=${id} ?selected=${id === chosen}>${name}</option>`);
    return html`<div class="row">
      <label
        >${words.person}
        <select
          data-field="staff"
          @change=${(event: Event) => (this.staff = (event.target as HTMLSelectElement).value)}
        >
          ${options(view.staff, this.staff)}
        </select></label
      >
      <label
        >${words.bench}
        <select
          data-field="bench"
          @change=${(event: Event) => (this.bench = (event.target as HTMLSelectElement).value)}
        >
          ${options(view.benches, this.bench)}
        </select></label
      >
      <button type="button" data-act="begin" @click=${this.begin}>${words.begin}</button>
      <button type="button" data-act="talk" @click=${this.talk}>${words.talk}</button>
    </div>`;
  }

  private prompt(words: VoicesWords): TemplateResult {
    const phrase = this.toSay[0] ?? '';
    return html`<div class="prompt">
      <p class="say" aria-live="polite"><b>${phrase === '' ? words.talkPrompt : words.sayNow(phrase)}</b></p>
      <meter min="-70" max="0" .value=${Math.max(-70, this.level)} aria-label=${words.level}></meter>
      <p>${words.progress(this.said, this.said + this.toSay.length)} ${this.lastSaid(words)}</p>
      <div class="row">
        <button type="button" class="record" data-act="record" ?disabled=${this.recording} @click=${this.record}>
          ${this.recording ? words.recording : words.record}
        </button>
        <button type="button" data-act="skip" ?disabled=${this.recording} @click=${this.skip}>${words.skip}</button>
        <button type="button" data-act="end" ?disabled=${this.recording} @click=${this.end}>${words.end}</button>
      </div>
    </div>`;
  }

  private lastSaid(words: VoicesWords): TemplateResult | null {
    const { last } = this;
    if (last === null) return null;
    const right = last.heard === last.phrase;
    const outcome = right
      ? words.heardRight
      : last.heard === null
        ? words.heardNothing(last.why ?? '')
        : words.heardOther(last.heard);
    return html`<span data-take=${right ? 'right' : 'wrong'}
      >${shape(right ? 'well' : 'attention', 20)} ${last.phrase}: ${outcome};
      ${words.near(last.voiceDb - last.floorDb)}</span
    >`;
  }

  private results(view: VoicesView, words: VoicesWords): TemplateResult {
    const name = (all: VoicesView['staff'], id: string) => all.find((each) => each.id === id)?.name ?? id;
    return html`<h3>${words.enrolled}</h3>
      ${view.enrolled.length === 0 ? html`<p>${words.noneYet}</p>` : null}
      ${view.enrolled.map(
        (each) =>
          html`<section data-enrolled=${`${each.staff} ${each.bench}`}>
            <h4>${name(view.staff, each.staff)} · ${name(view.benches, each.bench)}</h4>
            ${this.table(each, view, words)}
            <button type="button" @click=${() => this.forget(each)}>${words.forget}</button>
          </section>`,
      )}
      <p class="secondary">${words.recorded(view.takes, view.folder)}</p>
      ${
        view.takes === 0
          ? null
          : html`<p class="row">
              <a href="/api/voices/recordings.zip" download data-act="all-takes">${words.allTakes}</a>
              <a href="/api/voices/recordings/labels.csv" download>${words.labels}</a>
            </p>`
      }`;
  }

  private table({ enrolment }: EnrolledView, view: VoicesView, words: VoicesWords): TemplateResult {
    const { commands } = wordsOf(this.language);
    const firsts = new Set(view.phrases.map(({ first }) => first));
    const { aboveRoomDb, gateDb } = enrolment;
    return html`<p>${aboveRoomDb < CLOSE_ENOUGH_DB ? words.tooFar(aboveRoomDb) : words.gate(aboveRoomDb, gateDb)}</p>
      <table>
        <thead>
          <tr>
            ${[words.command, words.sayThis, words.rightOf, words.does].map((each) => html`<th class="plain" scope="col">${each}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${enrolment.commands.map(
            ({ command, phrase, right, of, weak }) =>
              html`<tr data-command=${command}>
                <th class="plain" scope="row">${commands[command]}</th>
                <td>${phrase}${firsts.has(phrase) ? null : html` <b>(${words.second})</b>`}</td>
                <td class="nowrap">${words.right(right, of)}</td>
                <td>${shape(weak ? 'attention' : 'well', 20)} ${weak ? words.weak : words.well}</td>
              </tr>`,
          )}
        </tbody>
      </table>`;
  }

  private readonly begin = (): void => {
    const phrases = this.view?.phrases ?? [];
    this.startSaying(Array.from({ length: TAKES }, () => phrases.map(({ first }) => first)).flat());
  };

  private readonly talk = (): void => {
    this.startSaying(Array.from({ length: 5 }, () => ''));
  };

  private startSaying(toSay: readonly string[]): void {
    void this.trying(async () => {
      await this.recorder.start();
      this.answers = [];
      this.said = 0;
      this.last = null;
      this.toSay = toSay;
    });
  }

  private readonly record = (): void => {
    const phrase = this.toSay[0];
    if (phrase === undefined || this.recording) return;
    this.recording = true;
    void this.trying(async () => {
      const pcm = await this.recorder.take(phrase === '' ? 7.5 : undefined);
      const answer = await this.api.take(this.staff, this.bench, phrase, pcm);
      this.last = answer;
      this.answers.push(answer);
      await this.next();
    }).finally(() => (this.recording = false));
  };

  private readonly skip = (): void => {
    void this.trying(() => this.next());
  };

  /** Where the first phrase was missed more than once in three, the second one is tried too. */
  private async next(): Promise<void> {
    const [now, ...rest] = this.toSay;
    this.said += 1;
    this.toSay = rest;
    const phrase = this.view?.phrases.find(({ first }) => first === now);
    if (phrase !== undefined && !rest.includes(phrase.first)) {
      const takes = this.answers.filter((take) => take.phrase === phrase.first);
      const missed = takes.filter((take) => take.heard !== take.phrase).length;
      if (missed > 1) this.toSay = [...rest, ...Array.from({ length: TAKES }, () => phrase.second)];
    }
    if (this.toSay.length === 0) await this.workOut();
  }

  private readonly end = (): void => {
    void this.trying(() => this.workOut());
  };

  private async workOut(): Promise<void> {
    this.recorder.stop();
    this.toSay = [];
    if (this.answers.some((take) => take.phrase !== '')) await this.api.enrol(this.staff, this.bench);
    await this.read();
  }

  private forget({ staff, bench }: EnrolledView): void {
    void this.trying(async () => {
      await this.api.forget(staff, bench);
      this.message = voicesWords[this.language].forgotten;
      await this.read();
    });
  }

  private async read(): Promise<void> {
    const view = await this.api.voices();
    this.view = view;
    if (this.staff === '') this.staff = view.staff[0]?.id ?? '';
    if (this.bench === '') this.bench = view.benches[0]?.id ?? '';
  }

  private async trying(work: () => Promise<void>, again = false): Promise<boolean> {
    try {
      if (!again) this.failure = '';
      await work();
      if (again) this.failure = '';
      return true;
    } catch (error) {
      this.fail(error);
      return false;
    }
  }

  private fail(error: unknown): void {
    const words = wordsOf(this.language);
    if (error instanceof MicrophoneError) this.failure = words.voice.troubles[error.code];
    else if (error instanceof OfficeRequestError)
      this.failure = voicesWords[this.language].failed(error.message === '' ? words.office.noServer : error.message);
    else throw error;
  }

  static override styles = [
    base,
    officeStyles,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        gap: 12px;
        align-items: end;
        margin-block: 16px 24px;
      }
      .prompt {
        border: 3px dashed var(--thread);
        padding: 16px 20px;
        max-width: 760px;
      }
      .prompt .say {
        font-size: 40px;
      }
      a {
        color: inherit;
      }
      meter {
        width: 260px;
        height: 22px;
      }
      .record {
        min-height: 64px;
        font-weight: 700;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-voices': Voices;
  }
}
