import { html } from 'lit';
import type { TemplateResult } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import type { SackVerdict } from '#shared/hand-over/sack.ts';
import type { CarrierSack, HandedParcel, HandOverView, SackScan, Sheet } from '#shared/wire/hand-over.ts';
import type { BenchRow, PersonRow } from '#shared/wire/office.ts';
import { play } from '../audio/earcons.ts';
import type { Earcon } from '../audio/earcons.ts';
import { listenToKeys } from '../bench/keys.ts';
import '../components/data-table.ts';
import { ReadAgain } from '../components/read-again.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { handOverWords } from '../i18n/hand-over.ts';
import { tableWords } from '../i18n/table.ts';
import { striped } from '../theme/styles.ts';
import { ask } from './api.ts';
import { handOverStyles } from './hand-over-styles.ts';
import './hand-over-past.ts';
import './hand-over-sheet.ts';
import { parcelColumns, shownMass } from './hand-over-table.ts';
import { PageElement, sent } from './page-element.ts';

const STANDING: Readonly<Record<SackVerdict, Standing>> = {
  in: 'well',
  'already-in': 'attention',
  'wrong-carrier': 'stop',
  'left-before': 'stop',
  stays: 'stop',
  'not-known': 'stop',
};
const SOUNDS: Readonly<Record<SackVerdict, Earcon>> = {
  in: 'accepted',
  'already-in': 'attention',
  'wrong-carrier': 'wrong-label',
  'left-before': 'wrong-label',
  stays: 'wrong-label',
  'not-known': 'refused',
};
/** Benches load sacks too. */
const LOOK_AGAIN_MS = 3000;
const NO_KEYS = { main: [], commands: {} };
const at = (carrier: string, what: string): string => `/api/hand-over/${encodeURIComponent(carrier)}/${what}`;
const rowKey = (row: unknown): string => String((row as { readonly id: number }).id);

/** Loading the carriers' sacks, naming what is missing, handing them over with a sheet, and what should have left. */
@customElement('bf-hand-over')
export class HandOver extends PageElement {
  @state() private view: HandOverView | null = null;
  @state() private benches: readonly BenchRow[] = [];
  @state() private people: readonly PersonRow[] = [];
  @state() private carrier: string | null = null;
  @state() private last: SackScan | null = null;
  @state() private sheet: Sheet | null = null;
  /** a parcel that is about to be kept back */
  @state() private keeping: number | null = null;
  @state() private by = '';
  private stopKeys: (() => void) | null = null;

  constructor() {
    super();
    new ReadAgain(this, LOOK_AGAIN_MS, () => void this.look());
    this.readFirst(async () => {
      [this.benches, this.people] = await Promise.all([
        ask<readonly BenchRow[]>('/api/benches'),
        ask<readonly PersonRow[]>('/api/who'),
      ]);
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    // A wedge scanner writes wherever the page stands.
    this.stopKeys = listenToKeys(
      (meaning) => {
        if (meaning.means === 'scan') this.scan(meaning.scan.text, meaning.scan.otherwise);
        else if (meaning.means === 'half-read') play('refused');
      },
      () => NO_KEYS,
    );
  }

  override disconnectedCallback(): void {
    this.stopKeys?.();
    super.disconnectedCallback();
  }

  private async look(): Promise<void> {
    await this.attempt(async () => {
      this.view = await ask<HandOverView>('/api/hand-over');
    });
  }

  /** The sack that scans on this page go into. */
  private get loading(): CarrierSack | undefined {
    const { carriers = [] } = this.view ?? {};
    return carriers.find(({ carrier }) => carrier === this.carrier) ?? carriers[0];
  }

  override render(): TemplateResult {
    const words = handOverWords[this.language];
    const { view, sheet, loading } = this;
    if (view === null)
      return html`${this.alert()}
        <p>${tableWords[this.language].loading}</p>`;
    if (sheet !== null) {
      return html`<bf-hand-over-sheet
        .language=${this.language}
        .sheet=${sheet}
        .view=${view}
        .benches=${this.benches}
        @bf-put-away=${() => (this.sheet = null)}
      ></bf-hand-over-sheet>`;
    }
    return html`<h2>${words.title}</h2>
      <p class="hint">${words.how}</p>
      ${this.alert()} ${this.overdue(view)}
      <div class="sacks">${view.carriers.map((sack) => this.tag(sack, view, sack === loading))}</div>
      ${loading === undefined ? null : this.load(loading, view)}
      <bf-hand-over-past
        class="seamed"
        .language=${this.language}
        .view=${view}
        .benches=${this.benches}
        @bf-open-sheet=${(event: CustomEvent<number>) => this.openSheet(event.detail)}
      ></bf-hand-over-past>`;
  }

  private overdue(view: HandOverView): TemplateResult | null {
    const words = handOverWords[this.language];
    const { overdue } = view;
    if (overdue.length === 0) return null;
    return html`<section class="overdue" data-overdue=${overdue.length}>
      <h3 class="said">${shape('attention', 24)} ${words.overdue(overdue.length)}</h3>
      <p class="hint">${words.overdueHow}</p>
      <bf-data-table
        plain
        .language=${this.language}
        .name=${words.overdue(overdue.length)}
        .columns=${parcelColumns({ ...view, language: this.language, benches: this.benches }, (row) => this.keepButton(row))}
        .rows=${overdue}
        .keyOf=${rowKey}
      ></bf-data-table>
    </section>`;
  }

  private tag(sack: CarrierSack, view: HandOverView, chosen: boolean): TemplateResult {
    const words = handOverWords[this.language];
    const { collection, missing, inSack } = sack;
    return html`<section class=${`sack kraft ${chosen ? 'chosen' : ''}`} data-sack=${sack.carrier}>
      <h3>${words.sackOf(sack.name[this.language])}</h3>
      <p class="secondary">${collection === null ? words.neverComes : words.collection(this.when(collection, view))}</p>
      <p>
        <b data-in>${words.inSack(inSack.length)}</b> · ${shownMass(sack.mass, view.unit, view.places, this.language)}
      </p>
      <p class="said" data-missing=${missing.length}>
        ${
          missing.length > 0
            ? html`${shape('attention', 20)} <b>${words.missing(missing.length)}</b>`
            : inSack.length > 0
              ? html`${shape('well', 20)} ${words.allIn}`
              : html`${shape('waiting', 20)} ${words.nothingYet}`
        }
      </p>
      ${
        chosen
          ? html`<p class="said">${shape('current', 20)} <b>${words.loading}</b></p>`
          : html`<button type="button" data-load=${sack.carrier} @click=${() => this.choose(sack.carrier)}>
              ${words.load}<span class="only-read">: ${sack.name[this.language]}</span>
            </button>`
      }
    </section>`;
  }

  private when({ day, at: time }: { day: string; at: string }, { now, timeZone }: HandOverView): string {
    const today = new Intl.DateTimeFormat('en-CA', { timeZone }).format(now);
    if (day === today) return `${handOverWords[this.language].today} ${time}`;
    const locale = this.language === 'es' ? 'es-US' : 'en-US';
    const weekday = new Intl.DateTimeFormat(locale, { weekday: 'short', timeZone: 'UTC' }).format(Date.parse(day));
    return `${weekday} ${time}`;
  }

  private load(sack: CarrierSack, view: HandOverView): TemplateResult {
    const words = handOverWords[this.language];
    return html`<section class="seamed">
      <form class="tools scanning" @submit=${this.typed}>
        <label class="code"
          ><span>${words.scan}: <b>${sack.name[this.language]}</b></span>
          <input name="code" data-scan autocomplete="off" placeholder=${words.scanHint} />
        </label>
        <label
          ><span>${words.loadsAt}</span>
          <select
            data-loads-at
            @change=${(event: Event) => this.begin(sack, (event.target as HTMLSelectElement).value)}
          >
            <option value="" ?selected=${sack.bench === null}>${words.noBench}</option>
            ${this.benches.map(
              (bench) => html`<option value=${bench.id} ?selected=${sack.bench === bench.id}>${bench.name}</option>`,
            )}
          </select></label
        >
      </form>
      ${this.verdict()}
      ${
        sack.missing.length === 0
          ? null
          : html`<h3 class="said">${shape('attention', 20)} ${words.missingTitle}</h3>
              <bf-data-table
                plain
                data-list="missing"
                .language=${this.language}
                .name=${words.missingTitle}
                .columns=${parcelColumns({ ...view, language: this.language, benches: this.benches }, (row) => this.missingButtons(row, sack))}
                .rows=${sack.missing}
                .keyOf=${rowKey}
              ></bf-data-table>`
      }
      ${
        sack.inSack.length === 0
          ? null
          : html`<h3 class="said">${shape('well', 20)} ${words.inTitle}</h3>
              <bf-data-table
                plain
                data-list="in"
                .language=${this.language}
                .name=${words.inTitle}
                .columns=${parcelColumns(
                  { ...view, language: this.language, benches: this.benches },
                  (row) =>
                    html`<button type="button" data-take-out=${row.id} @click=${() => this.takeOut(row, sack)}>
                      ${words.takeOut}<span class="only-read"> ${row.order}</span>
                    </button>`,
                )}
                .rows=${sack.inSack}
                .keyOf=${rowKey}
              ></bf-data-table>
              ${this.closing(sack)}`
      }
    </section>`;
  }

  private verdict(): TemplateResult | null {
    const { last } = this;
    if (last === null) return null;
    const words = handOverWords[this.language];
    const nameOf = (carrier: string | undefined): string =>
      last.view.carriers.find((each) => each.carrier === carrier)?.name[this.language] ?? carrier ?? '';
    const named =
      last.parcel === null ? last.text : words.parcelOf(last.parcel.order, last.parcel.number, last.parcel.of);
    const said = words.verdicts[last.verdict](named, nameOf(last.parcel?.carrier), nameOf(this.loading?.carrier));
    const loud = STANDING[last.verdict] === 'stop';
    return html`<p
      class=${`verdict said ${loud ? 'loud' : ''}`}
      role=${loud ? 'alert' : 'status'}
      data-verdict=${last.verdict}
    >
      ${shape(STANDING[last.verdict], 34)} <b>${said.replace(/\p{Cc}/gu, '·')}</b>
    </p>`;
  }

  private missingButtons(row: HandedParcel, sack: CarrierSack): TemplateResult {
    const words = handOverWords[this.language];
    return html`<span class="said">
      <button type="button" data-put=${row.id} @click=${() => this.put(row, sack)}>
        ${words.put}<span class="only-read"> ${row.order}</span>
      </button>
      ${this.keepButton(row)}
    </span>`;
  }

  private keepButton(row: HandedParcel): TemplateResult {
    const words = handOverWords[this.language];
    if (this.keeping !== row.id) {
      return html`<button type="button" data-keep=${row.id} @click=${() => (this.keeping = row.id)}>
        ${words.keep}<span class="only-read"> ${row.order}</span>
      </button>`;
    }
    return html`<form class="said" @submit=${(event: SubmitEvent) => this.keep(event, row)}>
      <input name="reason" required maxlength="200" aria-label=${words.keepWhy} placeholder=${words.keepWhy} />
      <button type="submit" data-keep-sure=${row.id}>${words.keepSure}</button>
    </form>`;
  }

  private closing(sack: CarrierSack): TemplateResult {
    const words = handOverWords[this.language];
    const missing = sack.missing.length;
    return html`<p class="tools closing">
      <label
        ><span>${words.by}</span>
        <select data-by @change=${(event: Event) => (this.by = (event.target as HTMLSelectElement).value)}>
          <option value="">${words.nobody}</option>
          ${this.people.map(({ id, name }) => html`<option value=${id}>${name}</option>`)}
        </select></label
      >
      <button
        type="button"
        class=${missing === 0 ? 'main' : ''}
        data-close=${sack.carrier}
        @click=${() => this.close(sack)}
      >
        ${missing === 0 ? words.close(sack.inSack.length) : words.closeLeaving(missing)}
      </button>
    </p>`;
  }

  private choose(carrier: string): void {
    this.carrier = carrier;
    this.last = null;
  }

  private readonly typed = (event: SubmitEvent): void => {
    event.preventDefault();
    const field = this.renderRoot.querySelector<HTMLInputElement>('[data-scan]');
    const text = field?.value.trim() ?? '';
    if (field !== null) field.value = '';
    if (text !== '') this.scan(text);
  };

  /** @param otherwise the same keys in another reading, tried where the first is no parcel's */
  private scan(text: string, otherwise: string | null = null): void {
    const { loading } = this;
    if (loading === undefined) return;
    void this.attempt(async () => {
      const read = (code: string) => ask<SackScan>(at(loading.carrier, 'scan'), sent({ text: code }));
      const first = await read(text);
      this.heard(first.verdict === 'not-known' && otherwise !== null ? await read(otherwise) : first);
    });
  }

  private put(row: HandedParcel, sack: CarrierSack): void {
    void this.attempt(async () => this.heard(await ask<SackScan>(at(sack.carrier, 'put'), sent({ parcel: row.id }))));
  }

  private heard(scan: SackScan): void {
    this.last = scan;
    this.view = scan.view;
    play(SOUNDS[scan.verdict]);
  }

  private takeOut(row: HandedParcel, sack: CarrierSack): void {
    void this.attempt(async () => {
      this.view = await ask<HandOverView>(at(sack.carrier, 'take-out'), sent({ parcel: row.id }));
      this.last = null;
    });
  }

  private begin(sack: CarrierSack, bench: string): void {
    void this.attempt(async () => {
      this.view = await ask<HandOverView>(at(sack.carrier, 'begin'), sent({ bench: bench === '' ? null : bench }));
    });
  }

  private keep(event: SubmitEvent, row: HandedParcel): void {
    event.preventDefault();
    const reason = new FormData(event.target as HTMLFormElement).get('reason');
    void this.attempt(async () => {
      this.view = await ask<HandOverView>(`/api/hand-over/parcels/${String(row.id)}/keep`, sent({ reason }));
      this.keeping = null;
    });
  }

  private close(sack: CarrierSack): void {
    void this.attempt(async () => {
      const body = { by: this.by === '' ? null : this.by, leave: sack.missing.length };
      this.sheet = await ask<Sheet>(at(sack.carrier, 'close'), sent(body));
      this.last = null;
      await this.look();
    });
  }

  private openSheet(id: number): void {
    void this.attempt(async () => {
      this.sheet = await ask<Sheet>(`/api/hand-over/sheets/${String(id)}`);
    });
  }

  static override styles = [...PageElement.styles, striped, handOverStyles];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-hand-over': HandOver;
  }
}
