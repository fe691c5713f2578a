import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { BenchClient } from '#tests/support/bench-client.ts';
import { copyOfConfig, removeConfigFolders } from '#tests/support/config-folder.ts';
import { startProcess, temporaryFolder, type ServerProcess } from '#tests/support/server-process.ts';
import { setBenches } from '#tests/support/set-benches.ts';
import type { BenchDesk, DevicesView, FormTrial, PrintPreview, ReferenceCheckRow } from '#shared/wire/devices.ts';
import { parseMass } from '#shared/units/mass.ts';

// A bench of its own for each test, on one server.
const config = copyOfConfig();
setBenches(config, 12);
let server: ServerProcess;
const data = temporaryFolder('devices');
let number = 0;
let bench: string;
let hands: BenchClient;

async function begin(port = 0): Promise<void> {
  server = await startProcess({ data: data.path, config, port });
}

async function take(): Promise<void> {
  hands = new BenchClient(server.url, bench);
  await hands.until(
    ({ devices }) => devices.length === 3 && devices.every((each) => each.state === 'working'),
    'devices',
  );
}

/** The power fails, and is back. */
async function restart(): Promise<void> {
  hands.close();
  await server.kill();
  await begin(server.port);
  await take();
}

beforeAll(() => begin());
beforeEach(async () => {
  number += 1;
  bench = `bench-${String(number)}`;
  await take();
});
afterEach(() => hands.close());
afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
});

async function post<Answer>(path: string, body: unknown = {}): Promise<{ status: number; body: Answer }> {
  const response = await fetch(`${server.url}/api/${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  return { status: response.status, body: (await response.json()) as Answer };
}

async function desk(): Promise<BenchDesk> {
  const view = (await (await fetch(`${server.url}/api/devices`)).json()) as DevicesView;
  const found = view.benches.find((each) => each.bench.id === bench);
  if (found === undefined) throw new Error(`no ${bench}`);
  return found;
}

async function untilDesk(condition: (desk: BenchDesk) => boolean, what: string, ms = 12_000): Promise<BenchDesk> {
  const end = Date.now() + ms;
  for (;;) {
    const now = await desk();
    if (condition(now)) return now;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}: ${JSON.stringify(now)}`);
    await new Promise((soon) => setTimeout(soon, 50));
  }
}

const jobs = (from: BenchDesk) => from.jobs.map(({ state, why }) => `${state} ${why}`.trim());
const test = { what: 'test', language: 'en', print: true };

describe('the devices of a bench', () => {
  it('are shown with what they send, and a cut cable within two seconds', async () => {
    const [scale] = (await untilDesk((now) => (now.devices[0]?.good ?? 0) > 3, 'frames')).devices;
    expect(scale).toMatchObject({ device: 'scale', simulated: true, protocol: 'continuous', discarded: 0 });
    expect(scale?.lastText).toContain('ST,GS,+');
    expect(scale?.lastHex).toMatch(/53 54 2C/);
    expect(scale?.frames[0]).toMatchObject({ kind: 'weight', shown: '0.0 oz', why: 'still' });
    await post(`devices/${bench}/simulate`, { do: 'unplug', device: 'scale' });
    const gone = await untilDesk((now) => now.devices[0]?.health.state === 'lost', 'the loss', 2000);
    expect(gone.live).toBeNull();
    await post(`devices/${bench}/simulate`, { do: 'plug', device: 'scale' });
    await untilDesk((now) => now.live !== null, 'the scale back');
  });

  it('a scan that is tried is shown and does not reach the run', async () => {
    await post(`devices/${bench}/test-scan`);
    await hands.simulate({ do: 'scan', text: 'BFC-NEXT' });
    const { testScan } = await untilDesk((now) => now.testScan.at === 'seen', 'the scan');
    expect(testScan).toMatchObject({ meaning: { means: 'command', command: 'next' } });
    expect(hands.view?.task.at).toBe('idle');
    await new Promise((soon) => setTimeout(soon, 500));
    await hands.simulate({ do: 'scan', text: 'BFC-NEXT' });
    await hands.at('gather');
  });

  it('a drifted zero is asked to be set, until it is', async () => {
    await hands.simulate({ do: 'drift', mass: '0.3 oz' });
    const live = await hands.until((client) => typeof client.live?.needsZeroing === 'number' && client.live, 'the ask');
    expect(live.needsZeroing).toBe(parseMass('0.3 oz'));
    await post(`devices/${bench}/zero`);
    await hands.until((client) => client.live?.needsZeroing === null, 'a zero that is set');
  });

  it('print a document as it was looked at', async () => {
    const looked = await post<PrintPreview>(`devices/${bench}/documents`, { ...test, print: false });
    expect(looked.body).toMatchObject({ queued: false, replaced: [] });
    expect(looked.body.svg).toContain('BFC-REPEAT');
    expect((await desk()).jobs).toEqual([]);
    const printed = await post<PrintPreview>(`devices/${bench}/documents`, test);
    expect(printed.body.svg).toBe(looked.body.svg);
    await untilDesk((now) => now.jobs[0]?.state === 'printed', 'the paper');
    expect(hands.offers?.slips).toBeDefined();
    const labels = { what: 'piece-labels', language: 'es', ids: ['nothing'], print: false };
    expect((await post(`devices/${bench}/documents`, labels)).status).toBe(404);
    expect((await post('devices/bench-99/documents', test)).status).toBe(404);
  });
});

describe('the print queue', () => {
  it('keeps what a printer that is off could not take, and prints it once when it is back', async () => {
    await hands.simulate({ do: 'unplug', device: 'printer' });
    await untilDesk((now) => now.devices[2]?.health.state === 'lost', 'the printer gone');
    await post(`devices/${bench}/documents`, test);
    await untilDesk((now) => jobs(now)[0] === 'queued not-connected', 'a failed try');
    await new Promise((soon) => setTimeout(soon, 2500));
    expect(jobs(await desk())).toEqual(['queued not-connected']);
    await hands.simulate({ do: 'plug', device: 'printer' });
    expect(jobs(await untilDesk((now) => now.jobs[0]?.state === 'printed', 'the print'))).toEqual(['printed printed']);
  });

  it('paper out in the middle is not known: it is not printed again until a person says so, once', async () => {
    const cards = { what: 'command-cards', language: 'en', print: true };
    await post(`devices/${bench}/documents`, cards);
    for (let at = ''; at !== 'unknown';) {
      await untilDesk((now) => now.jobs[0]?.state === 'sending', 'a job on its way', 5000);
      await hands.simulate({ do: 'paper', state: 'out' });
      // Out before a byte had left, it was no print yet: it waits, and the paper is put in for another try.
      const ended = await untilDesk(
        ({ jobs: [job] }) => job?.state === 'unknown' || job?.why === 'paper-out',
        'an end',
      );
      at = ended.jobs[0]?.state ?? '';
      if (at !== 'unknown') await hands.simulate({ do: 'paper', state: 'ok' });
    }
    await hands.simulate({ do: 'paper', state: 'ok' });
    await new Promise((soon) => setTimeout(soon, 1200));
    const [job, ...others] = (await desk()).jobs;
    expect(job).toMatchObject({ state: 'unknown' });
    expect(others).toEqual([]);
    const path = `devices/${bench}/jobs/${String(job?.id)}`;
    const both = await Promise.all([post(path, { as: 'again' }), post(path, { as: 'again' })]);
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409]);
    const after = await untilDesk((now) => now.jobs.some(({ state }) => state === 'printed'), 'the second print');
    expect(jobs(after).sort()).toEqual(['failed printed again', 'printed printed']);
  });

  it('a server killed while it printed does not know, prints nothing again, and is told', async () => {
    await post(`devices/${bench}/documents`, { what: 'command-cards', language: 'en', print: true });
    await untilDesk((now) => now.jobs[0]?.state === 'sending', 'a job on its way', 2000);
    await restart();
    const [job] = (await untilDesk((now) => now.jobs[0]?.state === 'unknown', 'the unknown outcome')).jobs;
    await post(`devices/${bench}/jobs/${String(job?.id)}`, { as: 'printed' });
    expect(jobs(await desk())).toEqual(['printed seen by a person']);
  });
});

describe('a second copy of what was printed', () => {
  it('comes only of what was printed, is marked, and is the same below the mark', async () => {
    await post(`devices/${bench}/documents`, test);
    const [job] = (await untilDesk((now) => now.jobs[0]?.state === 'printed', 'the paper')).jobs;
    const path = `devices/${bench}/jobs/${String(job?.id)}`;
    expect((await post(`${path}/copy`, { language: 'en' })).status).toBe(200);
    const both = await untilDesk((now) => now.jobs.length === 2 && now.jobs[0]?.state === 'printed', 'the copy');
    expect(both.jobs[0]?.title).toMatch(/^COPY: Printer test/);
    const paperOf = async (id: number | undefined) => {
      const response = await fetch(`${server.url}/api/devices/${bench}/jobs/${String(id)}/paper`);
      return ((await response.json()) as { svg: string }).svg.replace(/<[^>]*>|\s+/g, ' ');
    };
    const copy = await paperOf(both.jobs[0]?.id);
    expect(copy).toMatch(/COPY[\s\S]*First printed/);
    expect(copy.replace(/\s+/g, '')).toContain((await paperOf(job?.id)).replace(/\s+/g, ''));
    await hands.simulate({ do: 'unplug', device: 'printer' });
    await post(`devices/${bench}/documents`, test);
    const waiting = (await untilDesk((now) => now.jobs[0]?.state === 'queued', 'a waiting job')).jobs[0];
    expect((await post(`devices/${bench}/jobs/${String(waiting?.id)}/copy`, { language: 'en' })).status).toBe(409);
    expect((await post(`devices/${bench}/jobs/none/copy`, { language: 'en' })).status).toBe(409);
  });
});

describe('one code that two readers read', () => {
  it('acts once, whichever came first, and again when it is meant again', async () => {
    const scan = (text: string, ago = 0) => {
      const id = `a scan ${String(Math.random())}`;
      return hands.input({ id, type: 'scan', text, by: 'camera', ago });
    };
    const next = 'BFC-NEXT';
    await hands.at('idle');
    await hands.simulate({ do: 'scan', text: next });
    await scan(`]C0${next}`);
    await hands.at('gather');
    await new Promise((soon) => setTimeout(soon, 300));
    const { order } = await hands.at('gather');
    expect(order?.pieces.map(({ gathered }) => gathered)).toEqual(order?.pieces.map(() => 0));
    // The camera's next reading is another one; what it read long ago and tells now is no second one either.
    const back = 'BFC-BACK';
    await hands.simulate({ do: 'scan', text: back });
    await hands.at('idle');
    await scan(back, 5000);
    await new Promise((soon) => setTimeout(soon, 200));
    expect(hands.view?.notice?.code).toBe('not-now');
  });
});

describe('the daily trial with a known mass', () => {
  it('is refused for an empty pan and another mass, stored with its record, and still known after a restart', async () => {
    const trial = () =>
      post<ReferenceCheckRow & { error?: string }>(`devices/${bench}/reference-check`, { language: 'en' });
    expect((await trial()).body.error).toBe('pan-empty');
    await hands.emptyPan();
    await hands.simulate({ do: 'put-mass', mass: '9 oz' });
    await untilDesk((now) => now.live?.mass === parseMass('9 oz') && now.live.stability === 'still', 'a load');
    await new Promise((soon) => setTimeout(soon, 400));
    expect((await trial()).body.error).toBe('other-mass');
    await hands.emptyPan();
    await hands.simulate({ do: 'put-mass', mass: '16.3 oz' });
    await untilDesk(
      (now) => now.live?.mass === parseMass('16.3 oz') && now.live.stability === 'still',
      'the known mass',
    );
    await new Promise((soon) => setTimeout(soon, 400));
    const { body } = await trial();
    expect(body).toMatchObject({ deviation: parseMass('0.3 oz'), passed: false });
    const told = await untilDesk((now) => now.jobs[0]?.state === 'printed', 'the record');
    expect(told.jobs[0]?.title).toContain('Scale check');
    expect(told.checkDue).toBe(true);
    await restart();
    expect((await desk()).checks).toMatchObject([{ reading: parseMass('16.3 oz'), passed: false }]);
  });
});

describe('settings tried in the office', () => {
  it('a described form says what it makes of each pasted line', async () => {
    const form = { kind: 'own', pattern: '(?<number>\\d+\\.\\d)(?<unit>oz) (?<status>[SM])', words: { still: ['S'] } };
    const { body } = await post<FormTrial>('form-trial', { form, sample: '15.9oz S\r\n15.oz S' });
    expect(body.lines).toMatchObject([
      { line: '15.9oz S', good: true, shown: '15.9 oz', why: 'still' },
      { line: '15.oz S', good: false, why: 'form' },
    ]);
    expect(body.yaml).toContain('kind: own');
    const bad = await post<{ error: string }>('form-trial', { form: { ...form, pattern: '(' }, sample: 'x' });
    expect([bad.status, bad.body.error]).toEqual([422, 'bad-pattern']);
  });

  it('corrections of parcels that nobody packed are refused by line', async () => {
    const file = 'order;weight (oz)\n1047;15,9\n';
    const response = await fetch(`${server.url}/api/corrections`, { method: 'POST', body: file });
    expect(await response.json()).toMatchObject({ taken: 0, refused: [{ line: 2, found: '1047' }] });
  });
});
