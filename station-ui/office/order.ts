import { css, html } from 'lit';
import type { PropertyValues, TemplateResult } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { withPostcode } from '#shared/addresses/address-lines.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { OrderDetail, OrderParcel } from '#shared/wire/search.ts';
import { shape, type Standing } from '../components/shapes.ts';
import { wordsOf } from '../i18n/language.ts';
import { reasonInWords } from '../i18n/reason-in-words.ts';
import { combiningWords } from '../i18n/combining.ts';
import { searchWords } from '../i18n/search.ts';
import { tableWords } from '../i18n/table.ts';
import { dayAndTime, dayWords } from '../i18n/time.ts';
import { api } from './api.ts';
import type { OfficeApi } from './api.ts';
import { benchName, type NamedBench } from './bench-name.ts';
import './cancel-order.ts';
import './order-address.ts';
import './partial-order.ts';
import './order-photos.ts';
import { STANDING } from './order-table.ts';
import { PageElement } from './page-element.ts';

const READ_AGAIN_MS = 5000;
const PLACE: Readonly<Record<OrderParcel['place']['at'], Standing>> = {
  waits: 'waiting',
  sack: 'current',
  left: 'well',
  stays: 'attention',
};

/** One order, for whoever asks "where is it?": the answer first, then its parcels and pieces. */
@customElement('bf-order')
export class OrderPage extends PageElement {
  @property({ attribute: false }) api: Pick<OfficeApi, 'order'> = api;
  @property({ attribute: false }) benches: readonly NamedBench[] = [];
  /** the order's number */
  @property({ attribute: false }) order = '';
  @state() private detail: OrderDetail | null = null;
  /** how often it was read: its photos are then read too */
  private readings = 0;
  private timer: ReturnType<typeof setInterval> | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.timer = setInterval(() => void this.read(), READ_AGAIN_MS);
  }

  override disconnectedCallback(): void {
    clearInterval(this.timer);
    super.disconnectedCallback();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('order')) return;
    this.detail = null;
    void this.read();
  }

  private async read(): Promise<void> {
    const { order } = this;
    await this.attempt(async () => {
      const detail = await this.api.order(order);
      if (order === this.order) this.detail = detail;
      this.readings += 1;
    });
  }

  override render(): TemplateResult {
    const words = searchWords[this.language];
    const { detail } = this;
    return html`<div class="heading">
        <h2>${words.order(this.order)}</h2>
        <a class="button" href="#orders">${words.back}</a>
      </div>
      ${this.alert()}
      ${detail === null ? (this.failure === '' ? html`<p>${tableWords[this.language].loading}</p>` : null) : this.shown(detail)}`;
  }

  private shown(detail: OrderDetail): TemplateResult {
    const words = searchWords[this.language];
    const facts: readonly (readonly [string, string])[] = [
      [words.buyer, detail.buyer],
      [words.address, [...withPostcode(detail.address, detail.postcode), detail.country].join(', ')],
      [words.leaves, this.when(detail.shipBy)],
      [words.promised, detail.arriveBy === null ? '' : dayWords(detail.arriveBy, this.language)],
      [words.came, detail.cameAt === null ? '' : this.when(detail.cameAt)],
      [words.note, detail.note ?? ''],
    ];
    return html`<section class="kraft where">
        <h3>${words.where}</h3>
        <p class="said" data-where=${detail.state}>${shape(STANDING[detail.state], 24)} <b>${this.where(detail)}</b></p>
        ${
          detail.released === null
            ? null
            : html`<p data-released>
                ${words.released(
                  detail.released.by ?? words.somebody,
                  this.when(detail.released.at),
                  detail.released.from === 'office',
                )}
              </p>`
        }
        <bf-partial-order
          class="no-print"
          .detail=${detail}
          .language=${this.language}
          @bf-order-changed=${() => this.read()}
        ></bf-partial-order>
        <bf-order-address
          class="no-print"
          .detail=${detail}
          .language=${this.language}
          @bf-order-changed=${() => this.read()}
        ></bf-order-address>
        <bf-cancel-order
          class="no-print"
          .order=${detail.id}
          .standing=${detail.state}
          .language=${this.language}
          @bf-order-changed=${() => this.read()}
        ></bf-cancel-order>
        ${detail.parcels.map((parcel) => html`<p class="said" data-place=${parcel.place.at}>${shape(PLACE[parcel.place.at], 24)} <b>${detail.parcels.length === 1 ? null : `${words.parcelOf(parcel.number, parcel.of)}: `}${this.place(parcel)}</b></p>`)}
      </section>
      <dl>
        ${facts
          .filter(([, value]) => value !== '')
          .map(
            ([name, value]) =>
              html`<div>
                <dt>${name}</dt>
                <dd>${value}</dd>
              </div>`,
          )}
      </dl>
      ${
        detail.parcels.length === 0
          ? null
          : html`<section class="seamed">
              <h3>${words.parcels}</h3>
              ${detail.parcels.map((parcel) => this.parcel(parcel, detail))}
            </section>`
      }
      <bf-order-photos
        .benches=${this.benches}
        .order=${detail.id}
        .version=${this.readings}
        .unit=${detail.unit}
        .places=${detail.places}
        .timeZone=${detail.timeZone}
        .language=${this.language}
      ></bf-order-photos>
      ${this.pieces(detail)}`;
  }

  private where(detail: OrderDetail): string {
    const words = searchWords[this.language];
    switch (detail.state) {
      case 'open':
        return words.waiting(this.when(detail.shipBy));
      case 'packing':
        return words.atBench(
          benchName(detail.bench, this.benches),
          detail.packer ?? '',
          detail.begunAt === null ? '' : this.when(detail.begunAt),
        );
      case 'set-aside': {
        const reason = reasonInWords(detail.reason, wordsOf(this.language), this.language) ?? '';
        return words.aside(detail.asidePlace === null ? '' : String(detail.asidePlace), reason);
      }
      case 'packed':
        return words.packed;
      case 'cancelled':
        return words.cancelled;
      case 'combined':
        return combiningWords[this.language].partOf(detail.reason ?? '');
    }
  }

  private place({ place, carrier }: OrderParcel): string {
    const words = searchWords[this.language];
    const name = carrier[this.language];
    switch (place.at) {
      case 'waits':
        return words.waits;
      case 'sack':
        return words.inSack(name, place.collection);
      case 'left':
        return words.left(name, this.when(place.when));
      case 'stays':
        return words.stays(place.reason);
    }
  }

  private parcel(parcel: OrderParcel, detail: OrderDetail): TemplateResult {
    const words = searchWords[this.language];
    const { language } = this;
    const facts: readonly (readonly [string, string])[] = [
      [words.tracking, parcel.label ?? words.byEye],
      [words.container, parcel.container[language]],
      [words.service, `${parcel.service[language]} (${parcel.carrier[language]})`],
      [
        words.reading,
        `${formatMass(parcel.reading, detail.unit, detail.places, language)}, ${words.verdicts[parcel.verdict] ?? parcel.verdict}`,
      ],
      [words.pieces, parcel.pieces.join(', ')],
    ];
    return html`<article data-parcel=${parcel.number}>
      <h4>${words.parcelOf(parcel.number, parcel.of)}</h4>
      <p>
        ${words.packedBy(parcel.packer ?? words.somebody, benchName(parcel.bench, this.benches), this.when(parcel.finishedAt))}
      </p>
      <dl>
        ${facts.map(
          ([name, value]) =>
            html`<div>
              <dt>${name}</dt>
              <dd>${value}</dd>
            </div>`,
        )}
      </dl>
    </article>`;
  }

  private pieces({ lines }: OrderDetail): TemplateResult {
    const words = searchWords[this.language];
    return html`<section class="seamed">
      <h3>${words.pieces}</h3>
      <table>
        <thead>
          <tr>
            <th class="plain" scope="col">${words.sku}</th>
            <th class="plain" scope="col">${words.piece}</th>
            <th class="plain" scope="col">${words.shelf}</th>
          </tr>
        </thead>
        <tbody>
          ${lines.map(
            ({ sku, count, title, place }) =>
              html`<tr>
                <td><b>${sku}</b>${count > 1 ? ` × ${String(count)}` : null}</td>
                <td>${title ?? html`<span class="said">${shape('attention', 18)} ${words.unknownPiece}</span>`}</td>
                <td>${place ?? words.noShelf}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </section>`;
  }

  private when(instant: string | number): string {
    const iso = typeof instant === 'number' ? new Date(instant).toISOString() : instant;
    return dayAndTime(iso, this.language, { now: new Date(), timeZone: this.detail?.timeZone });
  }

  static override styles = [
    ...PageElement.styles,
    css`
      .where {
        display: grid;
        gap: 8px;
        padding: 12px 20px 16px;
        font-size: 19px;
        clip-path: polygon(0 0, calc(100% - 22px) 0, 100% 22px, 100% 100%, 0 100%);
      }
      dl {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(240px, 1fr));
        gap: 10px 28px;
        margin: 0;
      }
      dt {
        color: var(--walnut);
      }
      h4 {
        margin: 0;
        font-size: 16px;
      }
      section p {
        margin: 0;
      }
      dd {
        margin: 0;
        overflow-wrap: anywhere;
      }
      article {
        display: grid;
        gap: 8px;
        padding: 10px 0;
      }
    `,
  ];
}

declare global {
  interface HTMLElementTagNameMap {
    'bf-order': OrderPage;
  }
}
