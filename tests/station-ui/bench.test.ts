import type { LitElement } from 'lit';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Ack, BenchInput, SimulatorAction } from '#shared/wire/events.ts';
import type { BenchView } from '#shared/wire/views.ts';
import '#station-ui/bench/bench.ts';
import type { Bench } from '#station-ui/bench/bench.ts';
import type { LinkHandlers } from '#station-ui/bench/link.ts';
import { wordsOf } from '#station-ui/i18n/language.ts';
import { TASK_NAMES, benchView, live } from './fixtures.ts';
import type { TaskName } from './fixtures.ts';
import { all, one, text } from './look.ts';

let bench: Bench;
let server: LinkHandlers;
let inputs: BenchInput[];
let simulated: SimulatorAction[];
let answer: (input: BenchInput) => Promise<Ack | null>;

beforeEach(async () => {
  localStorage.clear();
  inputs = [];
  simulated = [];
  answer = () => Promise.resolve({ ok: true, seq: 41 });
  bench = document.createElement('bf-bench');
  bench.bench = 'bench-2';
  bench.open = (_, handlers) => {
    server = handlers;
    return {
      input: (input) => {
        inputs.push(input);
        return answer(input);
      },
      simulate: (action) => {
        simulated.push(action);
        return Promise.resolve({ ok: true, seq: 41 });
      },
      code: () => Promise.resolve(null),
      ear: () => undefined,
      speech: () => Promise.resolve({ ok: true, seq: 41 }),
      sound: () => Promise.resolve(null),
      again: () => undefined,
      close: () => undefined,
    };
  };
  document.body.append(bench);
  await settle();
});

afterEach(() => {
  bench.remove();
});

async function settle(): Promise<void> {
  for (let turn = 0; turn < 6; turn++) {
    await bench.updateComplete;
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
}

async function show(view: BenchView): Promise<void> {
  server.up();
  server.view(view);
  await settle();
}

const ELEMENT: Readonly<Record<TaskName, string>> = {
  idle: 'bf-task-idle',
  gather: 'bf-task-gather',
  'look-over': 'bf-task-look-over',
  fold: 'bf-task-fold',
  fill: 'bf-task-fill',
  weigh: 'bf-task-weigh',
  decide: 'bf-task-decide',
  over: 'bf-task-decide',
  mismatch: 'bf-task-decide',
  seal: 'bf-task-seal',
  label: 'bf-task-label',
  done: 'bf-task-done',
};

describe.each(['en', 'es'] as const)('in %s', (language) => {
  it.each(TASK_NAMES)('%s has its own element, one heading, and exactly the possible commands', async (name) => {
    const view = benchView(name, language);
    await show(view);
    expect(one(bench, '[data-task]')?.getAttribute('data-task')).toBe(view.task.at);
    expect(one(bench, '[data-task]')?.getAttribute('data-seq')).toBe('40');
    expect(all(bench, 'h1')).toHaveLength(1);
    expect(one(bench, ELEMENT[name])).not.toBeNull();
    const buttons = all(bench, '[data-command]');
    expect(buttons.map((each) => each.getAttribute('data-command'))).toEqual(view.commands);
    const words = wordsOf(language);
    for (const [index, command] of view.commands.entries()) {
      expect(text(buttons[index])).toContain(words.commands[command]);
    }
    expect(document.documentElement.lang).toBe(language);
    expect(text(bench)).not.toMatch(/undefined|NaN|\[object/);
  });
});

it('says what the bench is called before anybody has signed in, and over a page loaded while the server is away', async () => {
  expect(text(one(bench, '.who'))).toBe('bench-2');
  server.called('Bench by the window');
  server.door(false);
  await settle();
  expect(text(one(bench, '.who'))).toBe('Bench by the window');
  const { open } = bench;
  bench.remove();
  bench = Object.assign(document.createElement('bf-bench'), { bench: 'bench-2', open });
  document.body.append(bench);
  server.down();
  await settle();
  expect(text(one(bench, '.who'))).toBe('Bench by the window');
});

it('the fold shows the instruction, the step, the sizes after it and the block it ends as', async () => {
  await show(benchView('fold'));
  const shown = text(one(bench, 'bf-task-fold'));
  expect(shown).toContain('Fold the right third over');
  expect(shown).toContain('step 3 of 6');
  expect(text(one(bench, '[data-size=width]'))).toBe('9 in');
  expect(text(one(bench, '[data-size=length]'))).toBe('31½ in');
  expect(shown).toContain('9 × 10½ × 1¼ in');
  expect(all(bench, '[data-part=landing]')).toHaveLength(1);
  expect(all(bench, '.fold-line')).toHaveLength(1);
});

it('too close to a ceiling says by how much, and what each way out costs', async () => {
  await show(benchView('decide'));
  const shown = text(one(bench, 'bf-task-decide'));
  expect(shown).toContain('Too close to 16 oz');
  expect(shown).toContain('15.9 oz on the scale + 0.1 oz to come');
  expect(shown).toContain('0.12 oz');
  expect(all(bench, '[data-choice]').map((each) => each.getAttribute('data-choice'))).toEqual([
    'weigh-again',
    'make-lighter',
    'pay-next-bracket',
  ]);
  expect(shown).toContain('$8.05, that is $1.80 more');
  expect(shown).toContain('leave out the tissue: 0.2 oz');
});

it('a mass that these pieces cannot have says which way it is off', async () => {
  await show(benchView('mismatch'));
  expect(text(one(bench, 'bf-task-decide'))).toMatch(/Check the pieces.*9\.2 oz: lighter.*15\.1\u2060–\u206016\.1 oz/);
});

it('known cautions are shown once, unknown ones not at all', async () => {
  await show(benchView('look-over'));
  expect(all(bench, '[data-caution]').map((each) => each.getAttribute('data-caution'))).toEqual(['pockets-lithium']);
});

it('the live scale is shown, and is no reading any more once the link is lost', async () => {
  await show(benchView('weigh'));
  server.scale(live('12.3'));
  await settle();
  expect(text(one(bench, '.figure'))).toBe('12.3 oz');
  server.devices([{ device: 'scale', state: 'working', since: 0, trouble: 'none' }]);
  await settle();
  expect(one(bench, '[data-device=scale]')?.getAttribute('data-state')).toBe('working');
  server.down();
  await settle();
  expect(text(one(bench, '[data-device=scale]'))).toMatch(/^scale ?: not known$/);
  expect(text(one(bench, '.figure'))).toBe('–');
  expect(text(one(bench, 'bf-weigh-line'))).toContain('no reading');
});

it('a lost link is told once: missing speech is told only where there is a server to speak', async () => {
  const view = benchView('fold');
  await show({ ...view, speech: { ...view.speech, engine: 'not-installed' } });
  expect(one(bench, '[data-speech-trouble]')).not.toBeNull();
  server.down();
  await settle();
  expect(one(bench, '[data-banner=link-lost]')).not.toBeNull();
  expect(one(bench, '[data-speech-trouble]')).toBeNull();
});

it('a question waits for confirm in the middle of the screen', async () => {
  await show(
    benchView('decide', 'en', { confirming: { command: 'pay-next-bracket' }, commands: ['confirm', 'cancel'] }),
  );
  expect(text(one(bench, 'bf-confirm'))).toMatch(/Pay the next bracket\?.*\$8\.05, that is \$1\.80 more/);
  one(bench, '[data-choice=confirm]')?.click();
  await settle();
  expect(inputs).toMatchObject([{ type: 'command', command: 'confirm', by: 'touch' }]);
});

it('a label read by eye is asked about with its postcode', async () => {
  await show(benchView('label', 'en', { confirming: { command: 'next' }, commands: ['confirm', 'cancel'] }));
  expect(text(one(bench, 'bf-confirm h1, h1'))).toBe('Does the label say 55802?');
});

it('a piece that the order goes without is named in the question', async () => {
  await show(benchView('gather', 'es', { confirming: { command: 'go-without' }, commands: ['confirm', 'cancel'] }));
  expect(text(one(bench, 'bf-confirm h1, h1'))).toBe('¿Enviar el pedido sin work shirt, L, ochre?');
});

it('a live reading draws only what shows it', async () => {
  await show(benchView('fold'));
  const still = ['bf-commands', 'bf-seam', 'bf-notice-bar', 'bf-side', 'bf-task-fold', 'bf-tray', 'bf-device-marks'];
  const drawn: string[] = [];
  for (const name of still) {
    const element = one(bench, name) as LitElement | null;
    element?.addController({ hostUpdate: () => void drawn.push(name) });
  }
  server.scale(live('12.3'));
  await settle();
  expect(text(one(bench, 'bf-weigh-line'))).toContain('12.3 oz');
  expect(drawn).toEqual([]);
});

describe('inputs', () => {
  it('touching a command sends it once, however often it is touched before the answer', async () => {
    let settleIt: (ack: Ack) => void = () => undefined;
    answer = () => new Promise((resolve) => (settleIt = resolve));
    await show(benchView('fold'));
    const next = one(bench, '[data-command=next]');
    next?.click();
    next?.click();
    await settle();
    expect(inputs).toHaveLength(1);
    expect(one(bench, '[data-command=next]')?.getAttribute('aria-busy')).toBe('true');
    expect(text(one(bench, 'bf-last-scan'))).toContain('1 sending');
    expect(one(bench, '[data-problem=still-sending]')).not.toBeNull();
    settleIt({ ok: true, seq: 41 });
    await settle();
    expect(one(bench, '[data-command=next]')?.getAttribute('aria-busy')).toBe('false');
    expect(text(one(bench, 'bf-last-scan'))).not.toContain('sending');
  });

  it('what is shown next may be answered before the first touch is acknowledged; both go out, one after the other', async () => {
    const acks: ((ack: Ack) => void)[] = [];
    answer = () => new Promise((resolve) => acks.push(resolve));
    await show(benchView('fold'));
    one(bench, '[data-command=next]')?.click();
    await settle();
    const shown = benchView('fold');
    const task = shown.task.at === 'fold' ? { ...shown.task, step: shown.task.step + 1 } : shown.task;
    await show({ ...shown, seq: shown.seq + 1, task });
    one(bench, '[data-command=next]')?.click();
    one(bench, '[data-command=next]')?.click();
    await settle();
    expect(text(one(bench, 'bf-last-scan'))).toContain('2 sending');
    expect(inputs).toHaveLength(1);
    acks[0]?.({ ok: true, seq: 41 });
    await settle();
    expect(inputs).toHaveLength(2);
    acks[1]?.({ ok: true, seq: 42 });
    await settle();
    expect(text(one(bench, 'bf-last-scan'))).not.toContain('sending');
  });

  it('setting aside asks why first and sends the reason', async () => {
    await show(benchView('gather'));
    one(bench, '[data-command=set-aside]')?.click();
    await settle();
    expect(inputs).toEqual([]);
    one(bench, '[data-reason=damaged]')?.click();
    await settle();
    expect(inputs).toMatchObject([{ type: 'command', command: 'set-aside', reason: 'damaged' }]);
  });

  it('what is done while the link is lost waits, says so, and goes out once with its id', async () => {
    await show(benchView('gather'));
    server.down();
    await settle();
    expect(one(bench, '[data-banner=link-lost]')).not.toBeNull();
    one(bench, '[data-command=item-missing]')?.click();
    await settle();
    expect(inputs).toEqual([]);
    expect(text(one(bench, 'bf-last-scan'))).toContain('1 sending');
    const kept = JSON.parse(localStorage.getItem('benchfold.waiting.bench-2') ?? '[]') as BenchInput[];
    server.up();
    await settle();
    expect(inputs).toEqual(kept);
    expect(one(bench, '[data-banner=link-lost]')).toBeNull();
  });

  it('an input that the server refuses says so', async () => {
    answer = () => Promise.resolve({ ok: false, error: 'bad-request', message: '' });
    await show(benchView('gather'));
    one(bench, '[data-command=next]')?.click();
    await settle();
    expect(text(one(bench, '[data-problem=bad-request]'))).toContain('did not understand');
  });

  it('the language switch changes every word at once and tells the server', async () => {
    await show(benchView('fold'));
    one(bench, '[data-switch=language]')?.click();
    await settle();
    expect(text(one(bench, 'h1'))).toBe('Dobla encima el tercio derecho');
    expect(inputs).toMatchObject([{ type: 'language', language: 'es' }]);
  });
});

describe('keys', () => {
  const press = (code: string, key: string, time: number, on: EventTarget = document.body): void => {
    const event = new KeyboardEvent('keydown', { key, code, bubbles: true, composed: true, cancelable: true });
    Object.defineProperty(event, 'timeStamp', { value: time });
    on.dispatchEvent(event);
  };
  const later = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 120));

  it.each([
    ['Space', ' ', 'next'],
    ['Enter', 'Enter', 'next'],
    ['PageDown', 'PageDown', 'next'],
    // the shop's own foot switch
    ['F8', 'F8', 'next'],
    ['ArrowLeft', 'ArrowLeft', 'back'],
  ] as const)('%s gives a command', async (code, key, command) => {
    await show(benchView('fold'));
    press(code, key, performance.now());
    await later();
    expect(inputs).toMatchObject([{ type: 'command', command, by: 'key' }]);
  });

  it('Space presses the button that Tab led to, but not one that was only touched', async () => {
    await show(benchView('fold'));
    const back = one(bench, '[data-command=back]')!;
    press('Tab', 'Tab', performance.now());
    press('Space', ' ', performance.now(), back);
    await later();
    expect(inputs).toMatchObject([{ command: 'back', by: 'touch' }]);
    back.dispatchEvent(new Event('pointerdown', { bubbles: true, composed: true }));
    press('Space', ' ', performance.now(), back);
    await later();
    expect(inputs).toMatchObject([{ command: 'back' }, { command: 'next', by: 'key' }]);
  });

  it('a letter alone does nothing', async () => {
    await show(benchView('fold'));
    press('KeyN', 'n', performance.now());
    await later();
    expect(inputs).toEqual([]);
  });

  it('a scanner’s burst is one scan, with its space and its Enter, and presses no button', async () => {
    await show(benchView('gather'));
    const clicked = vi.fn();
    one(bench, '[data-command=next]')?.addEventListener('click', clicked);
    const now = performance.now();
    Array.from('OT 0418').forEach((key, index) => {
      press(`Key${key}`, key, now + index);
    });
    press('Enter', 'Enter', now + 8);
    await later();
    expect(inputs).toMatchObject([{ type: 'scan', text: 'OT 0418', by: 'scan' }]);
    expect(clicked).not.toHaveBeenCalled();
  });

  it('a burst that stops without its end is no scan', async () => {
    await show(benchView('gather'));
    const now = performance.now();
    Array.from('OT-04').forEach((key, index) => {
      press(`Key${key}`, key, now + index);
    });
    await later();
    expect(inputs).toEqual([]);
  });
});

describe('the simulated devices', () => {
  it('have no drawer where devices are real', async () => {
    await show(benchView('weigh', 'en', { simulated: false }));
    expect(one(bench, 'bf-tray')).toBeNull();
  });

  it('are played from their drawer', async () => {
    await show(benchView('weigh'));
    server.simulator({
      codes: [
        { label: 'work shirt', text: 'OT-0418' },
        { label: 'next', text: 'card-next' },
      ],
      slips: [{ at: 0, svg: '<svg xmlns="http://www.w3.org/2000/svg"/>' }],
    });
    server.devices([{ device: 'scale', state: 'lost', since: 0, trouble: 'link-lost' }]);
    await settle();
    one(bench, '[data-tray=tab]')?.click();
    await settle();
    expect(text(one(bench, '[data-code=card-next]'))).toBe('“next item”');
    for (const selector of [
      '[data-tray=put-expected]',
      '[data-code=OT-0418]',
      '[data-paper=out]',
      '[data-printer=open-cover]',
      '[data-plug=scale]',
    ]) {
      one(bench, selector)?.click();
    }
    await settle();
    expect(simulated).toEqual([
      { do: 'put-expected' },
      { do: 'scan', text: 'OT-0418' },
      { do: 'paper', state: 'out' },
      { do: 'printer', does: 'open-cover' },
      { do: 'plug', device: 'scale' },
    ]);
    expect(one(bench, 'img')?.getAttribute('src')).toMatch(/^data:image\/svg\+xml/);
    one(bench, '[data-tray=foot]')?.click();
    await settle();
    expect(inputs).toMatchObject([{ type: 'command', command: 'weigh-again', by: 'key' }]);
  });
});
