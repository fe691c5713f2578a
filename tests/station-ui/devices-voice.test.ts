import { expect, it } from 'vitest';
import { one, text } from './look.ts';
import { devicesApi } from '#station-ui/office/devices-api.ts';
import { Devices } from '#station-ui/office/devices.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';

const never = () => new Promise<never>(() => undefined);

it.each(['en', 'es'] as const)(
  '%s: says on the devices page that the station has no voice, or nothing that understands one',
  async (language) => {
    for (const engine of ['not-installed', 'working'] as const) {
      const page = new Devices();
      page.words = wordsOf(language);
      page.language = language;
      page.api = {
        ...devicesApi,
        view: never,
        speech: () => Promise.resolve({ engine }),
        recogniser: () => Promise.resolve({ recogniser: engine }),
      };
      document.body.append(page);
      for (let turn = 0; turn < 5; turn += 1) {
        await new Promise((soon) => setTimeout(soon, 0));
        await page.updateComplete;
      }
      const line = one(page, '[data-voice-missing]');
      expect(line === null).toBe(engine === 'working');
      if (line !== null) expect(text(line)).toContain('apt-get install espeak-ng');
      const ear = one(page, '[data-recogniser-missing]');
      expect(ear === null).toBe(engine === 'working');
      if (ear !== null) expect(text(ear)).toContain('apt-get install libpocketsphinx3');
      page.remove();
    }
  },
);
