import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { FitVerdict } from '#shared/fitting/types.ts';
import { decimalsIn } from '#shared/units/decimal-mark.ts';
import { formatMoney, money } from '#shared/units/money.ts';
import type { LengthUnit } from '#shared/units/length.ts';
import type { ContainerFitView } from '#shared/wire/fits.ts';
import type { Language } from '#shared/words/language.ts';
import { millimetreWords } from '../components/lengths.ts';
import { shape } from '../components/shapes.ts';
import type { Standing } from '../components/shapes.ts';
import type { FitsWords } from '../i18n/fits.ts';
import { fitDrawing } from './fit-drawing.ts';

const STANDING: Readonly<Record<FitVerdict, Standing>> = { easy: 'well', snug: 'attention', no: 'stop' };
const DIRECTIONS = ['width', 'length', 'thickness'] as const;

export interface CardSetting {
  readonly words: FitsWords;
  readonly language: Language;
  readonly unit: LengthUnit;
  readonly currency: string;
}

/** "10 × 13½ in", the sides that are there. */
function sidesWords(sides: readonly (number | null)[], { unit, language }: CardSetting): string {
  const said = sides.flatMap((side) => (side === null ? [] : [millimetreWords(side, unit, language)]));
  return `${said.join(' × ')} ${unit}`;
}

function spareWords({ fit }: ContainerFitView, { words, unit, language }: CardSetting): string {
  return DIRECTIONS.map((direction) => {
    const slack = fit.slack[direction];
    const by = `${millimetreWords(Math.abs(slack), unit, language)} ${unit}`;
    return `${words.directions[direction]} ${by} ${slack < 0 ? words.short : words.spare}`;
  }).join(', ');
}

function verdictWords({ fit }: ContainerFitView, { words, unit, language }: CardSetting): string {
  const places = fit.probability > 0.99 && fit.probability < 1 ? 1 : 0;
  const percent = decimalsIn((fit.probability * 100).toFixed(places), unit, language);
  if (fit.limit === 'must-not-press') return `${words.verdict.no}: ${words.mustNotPress}`;
  return `${words.verdict[fit.verdict]} · ${words.chance(percent)}`;
}

function costLine(view: ContainerFitView, { words, currency, language }: CardSetting): TemplateResult | null {
  const { cost } = view;
  if (cost === null) return null;
  const said = (minor: number) => formatMoney(money(Math.round(minor), currency), language);
  const parts = (['postage', 'materials', 'labour', 'risk'] as const).filter((part) => Math.round(cost[part]) > 0);
  return html`<dt>${words.cost}</dt>
    <dd>
      <b>${said(cost.total)}</b>
      <span class="secondary">${parts.map((part) => `${words.parts[part]} ${said(cost[part])}`).join(' + ')}</span>
    </dd>`;
}

/** One container as a card: the drawing, whether the pieces fit, what it costs, and why not. */
export function fitCard(view: ContainerFitView, setting: CardSetting): TemplateResult {
  const { words, language } = setting;
  const { inside, stack, service } = view;
  const name = view.name[language];
  const folded = `${sidesWords([stack.across, stack.along, stack.thickness], setting)}${stack.piles > 1 ? `, ${words.twoPiles}` : view.fit.turned ? `, ${words.across}` : ''}`;
  const verdict = verdictWords(view, setting);
  return html`<li class=${view.isChosen ? 'chosen' : ''} data-container=${view.id} data-verdict=${view.fit.verdict}>
    <h3>${name}${view.isChosen ? html` <span class="mark">${words.chosen}</span>` : null}</h3>
    <p class="said verdict">${shape(STANDING[view.fit.verdict], 20)} ${verdict}</p>
    ${fitDrawing(view, `${name}. ${verdict}. ${spareWords(view, setting)}`, words)}
    <dl>
      <dt>${words.inside}</dt>
      <dd>${sidesWords([inside.width, inside.length, inside.depth], setting)}</dd>
      <dt>${words.folded}</dt>
      <dd>${folded}</dd>
      <dt>${words.spare}</dt>
      <dd>${spareWords(view, setting)}</dd>
      <dt>${words.fold}</dt>
      <dd>
        ${view.folds.map((fold) => `${view.folds.length > 1 ? `${fold.title}: ` : ''}${fold.recipe[language]}, ${words.steps(fold.steps)}`).join('; ')}
        <span class="secondary">${view.wrap[language]}</span>
      </dd>
      ${
        service === null
          ? null
          : html`<dt>${words.service}</dt>
              <dd>
                ${service.name[language]}
                ${service.days === null ? null : html`<span class="secondary">${words.days(...service.days)}</span>`}
              </dd>`
      }
      ${costLine(view, setting)}
    </dl>
    ${view.why[language] === '' ? null : html`<p class="why">${view.why[language]}</p>`}
    ${
      view.services.length === 0
        ? null
        : html`<details>
            <summary>${words.otherServices}</summary>
            <ul>
              ${view.services.map((other) => html`<li><b>${other.name[language]}</b>: ${other.why[language]}</li>`)}
            </ul>
          </details>`
    }
  </li>`;
}
