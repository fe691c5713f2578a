import { html } from 'lit';
import type { TemplateResult } from 'lit';
import type { Notice } from '#shared/run/types.ts';
import { formatMass } from '#shared/units/mass.ts';
import type { BenchView } from '#shared/wire/views.ts';
import '../components/notice-bar.ts';
import { shape } from '../components/shapes.ts';
import type { Words } from '../i18n/words.ts';
import { helpWords } from '../i18n/help.ts';
import type { StationState } from './station.ts';
import './usb-scale-line.ts';

/** What lies over the task whatever it is: a lost link, what could not be taken, a drifted zero, and the notice. */
export function banners(
  words: Words,
  view: BenchView,
  shown: StationState | null,
  notice: Notice | null,
): TemplateResult {
  const { bench, wireErrors } = words;
  const lost = shown?.link !== 'up';
  const problem = shown?.problem ?? null;
  const drifted = shown?.live?.needsZeroing ?? null;
  return html`${
      lost
        ? html`<div class="lost" role="alert" data-banner="link-lost">
            ${shape('stop', 48)}
            <div>
              <p class="say"><b>${bench.linkLost}</b></p>
              <p class="small">${bench.linkLostHow}</p>
            </div>
          </div>`
        : null
    }
    ${
      problem === null
        ? null
        : html`<p class="say striped problem" role="alert" data-problem=${problem}>
            <span>${problem === 'still-sending' ? bench.stillSending : wireErrors[problem]}</span>
          </p>`
    }
    ${
      view.scaleOnScreen === true
        ? html`<bf-usb-scale-line .bench=${view.bench.id} .language=${view.language}></bf-usb-scale-line>`
        : null
    }
    ${
      drifted === null
        ? null
        : html`<p class="say striped problem" role="status" data-banner="zero">
            <span
              >${words.scale.zeroIt(formatMass(drifted, view.units.mass, view.units.massPlaces, view.language))}</span
            >
          </p>`
    }
    ${
      // Its own notice says so first; what happens meanwhile must not hide it.
      view.helpCalled === true && notice?.code !== 'help-called'
        ? striped('help-called', helpWords[view.language].called)
        : null
    }
    ${view.helpWanted === undefined ? null : striped('help-wanted', helpWords[view.language].asks(view.helpWanted))}
    <bf-notice-bar .notice=${notice} .words=${words}></bf-notice-bar>`;
}

function striped(banner: string, said: string): TemplateResult {
  return html`<p class="say striped problem" role="status" data-banner=${banner}>
    <span style="display:flex;gap:14px;align-items:center">${shape('attention', 34)} ${said}</span>
  </p>`;
}
