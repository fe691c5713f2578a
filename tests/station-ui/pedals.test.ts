import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keysOf, meaningOf } from '#station-ui/bench/keys.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { devicesApi } from '#station-ui/office/devices-api.ts';
import '#station-ui/office/pedals.ts';
import type { Pedals } from '#station-ui/office/pedals.ts';
import { footSwitchLine } from '#station-ui/office/pedals.ts';
import { benchView } from './fixtures.ts';
import { all, one, text } from './look.ts';

let page: Pedals;

beforeEach(async () => {
  page = document.createElement('bf-pedals');
  page.words = wordsOf('en');
  page.language = 'en';
  page.api = devicesApi;
  document.body.append(page);
  await page.updateComplete;
});
afterEach(() => {
  page.remove();
});

async function press(code: string): Promise<KeyboardEvent> {
  const event = new KeyboardEvent('keydown', { code, key: code, bubbles: true, cancelable: true });
  document.body.dispatchEvent(event);
  await page.updateComplete;
  return event;
}

async function learn(meaning: string, code: string): Promise<void> {
  const choice = one(page, '[data-field=pedal]') as HTMLSelectElement;
  choice.value = meaning;
  choice.dispatchEvent(new Event('change'));
  one(page, '[data-do=pedal]')?.click();
  await page.updateComplete;
  await press(code);
}

describe('pedals are learned by pressing them', () => {
  it('each tells its key and the line for the file', async () => {
    await learn('main', 'F13');
    expect(text(one(page, 'pre'))).toBe('footSwitchKeys: [F13]');
    await learn('back', 'F15');
    expect(all(page, '[data-key]').map((each) => text(each))).toEqual([
      'F13: whatever the large button does',
      `F15: ${wordsOf('en').commands.back}`,
    ]);
    expect(text(one(page, 'pre'))).toBe('footSwitchKeys: { main: [F13], back: [F15] }');
  });

  it('a key does nothing else while it is waited for, and all it does before and after', async () => {
    expect((await press('F13')).defaultPrevented).toBe(false);
    one(page, '[data-do=pedal]')?.click();
    await page.updateComplete;
    expect(one(page, '[data-pedal=waiting]')).not.toBeNull();
    expect((await press('PageDown')).defaultPrevented).toBe(true);
    expect((await press('PageDown')).defaultPrevented).toBe(false);
    expect(text(one(page, 'pre'))).toBe('footSwitchKeys: [PageDown]');
  });

  it('a key that is taken is refused by name; Escape is no pedal', async () => {
    await learn('main', 'F13');
    await learn('repeat', 'F13');
    expect(text(one(page, '[data-pedal=taken]'))).toContain('F13 is taken');
    expect(text(one(page, 'pre'))).toBe('footSwitchKeys: [F13]');
    await learn('repeat', 'Escape');
    expect(all(page, '[data-key]')).toHaveLength(1);
  });

  it('what is learned is what the bench then takes them for', () => {
    const learned = new Map([
      ['F13', 'main'],
      ['PageDown', 'repeat'],
      ['F15', 'back'],
    ] as const);
    expect(footSwitchLine(learned)).toBe('footSwitchKeys: { main: [F13], repeat: [PageDown], back: [F15] }');
    const view = benchView('fold', 'en', { footSwitchKeys: ['F13'], pedals: { PageDown: 'repeat', F15: 'back' } });
    const keys = keysOf(view);
    expect(meaningOf('F13', keys)).toEqual({ means: 'main' });
    // Without the shop's word it goes on.
    expect(meaningOf('PageDown', keysOf(null))).toEqual({ means: 'main' });
    expect(meaningOf('PageDown', keys)).toEqual({ means: 'command', command: 'repeat' });
    expect(meaningOf('F15', keys)).toEqual({ means: 'command', command: 'back' });
    expect(meaningOf('Space', keys)).toEqual({ means: 'main' });
  });
});
