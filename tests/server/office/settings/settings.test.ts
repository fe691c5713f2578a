import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import type { ChangesView } from '#shared/wire/audit.ts';
import type { ConfigProblem } from '#shared/wire/rates.ts';
import type {
  EarlierText,
  EarlierVersion,
  NewRateCard,
  SettingsOverview,
  SettingsSection,
  SettingsText,
  SettingsTrouble,
  SettingsWritten,
  TextChecked,
} from '#shared/wire/settings.ts';
import { BenchClient } from '#tests/support/bench-client.ts';
import { CONFIG, copyOfConfig, edit, lineOf, removeConfigFolders } from '#tests/support/config-folder.ts';
import { serverOn } from '#tests/support/in-process-server.ts';
import { temporaryFolder } from '#tests/support/server-process.ts';

let config: string;
let data: ReturnType<typeof temporaryFolder>;
let server: Awaited<ReturnType<typeof serverOn>>;

beforeAll(async () => {
  config = copyOfConfig();
  data = temporaryFolder('settings');
  server = await serverOn(config, data.path);
});

/** Every file as it was, without waiting for it to be noticed. */
afterEach(async () => {
  rmSync(join(config, 'rate-cards', 'third-carrier.yaml'), { force: true });
  rmSync(join(config, '.earlier'), { recursive: true, force: true });
  for (const file of readdirSync(CONFIG).filter((name) => name.endsWith('.yaml'))) {
    const text = readFileSync(join(CONFIG, file), 'utf8');
    const { digest } = await get<SettingsText>(`/file?file=${file}`);
    expect((await post('/text', { file, digest, text })).status).toBe(200);
  }
  rmSync(join(config, '.earlier'), { recursive: true, force: true });
});

afterAll(async () => {
  await server.stop();
  data.remove();
  removeConfigFolders();
});

interface Refused {
  readonly error: string;
  readonly problems: readonly ConfigProblem[];
}

const fileText = (file: string) => readFileSync(join(config, file), 'utf8');

async function get<Answer>(path: string): Promise<Answer> {
  return (await (await fetch(`${server.url}/api/settings${path}`)).json()) as Answer;
}

async function post<Answer>(path: string, body: object): Promise<{ readonly status: number; readonly body: Answer }> {
  const response = await fetch(`${server.url}/api/settings${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ by: null, ...body }),
  });
  return { status: response.status, body: (await response.json()) as Answer };
}

async function entryOf(section: string, id: string) {
  const view = await get<SettingsSection>(`/section?section=${section}`);
  const entry = view.entries.find((each) => each.id === id);
  if (entry === undefined) throw new Error(`no ${id} in ${section}`);
  const change = { section, file: view.file, digest: view.digest, entry: id, id };
  return { view, change, value: entry.value as Record<string, unknown> };
}

describe('an entry', () => {
  it('is changed in its file alone, with all else kept, and the running shop goes by it at once', async () => {
    const before = fileText('containers.yaml');
    const { change, value } = await entryOf('containers', 'pouch-10x13');
    const fits = async () => (await fetch(`${server.url}/api/what-fits?kind=t-shirt`)).text();
    const fitted = await fits();
    const written = await post<SettingsWritten>('/entry', {
      ...change,
      by: 'maren',
      value: { ...value, cost: '0.11' },
    });
    expect(written.status).toBe(200);
    expect(fileText('containers.yaml')).toBe(before.replace("cost: '0.09'", "cost: '0.11'"));
    const again = await entryOf('containers', 'pouch-10x13');
    expect(again.value['cost']).toBe('0.11');
    expect(again.view.digest).toBe(written.body.digest);
    // What fits says what each container costs.
    expect(await fits()).not.toBe(fitted);
  });

  it('that does not hold is refused with its place, and nothing is written', async () => {
    const before = fileText('containers.yaml');
    const { change, value } = await entryOf('containers', 'pouch-10x13');
    const refused = await post<Refused>('/entry', { ...change, value: { ...value, mass: 'light', type: 'carton' } });
    expect(refused.status).toBe(422);
    expect(refused.body.error).toBe('does-not-hold');
    expect(refused.body.problems.map(({ path }) => path)).toContain('containers.pouch-10x13.mass');
    expect(refused.body.problems[0]).toMatchObject({
      file: 'containers.yaml',
      line: expect.any(Number) as number,
      found: '"light"',
    });
    expect(fileText('containers.yaml')).toBe(before);
    expect(readdirSync(config)).not.toContain('.earlier');
  });

  it('is added, called otherwise, and taken away again; the file is then as it was', async () => {
    const before = fileText('staff.yaml');
    const { change } = await entryOf('staff', 'lucia');
    const value = { name: 'Anneke', badge: 'STAFF-ANNEKE-04', language: 'en', role: 'packer' };
    const added = await post<SettingsWritten>('/entry', { ...change, entry: null, id: 'anneke', value });
    expect(added.status).toBe(200);
    expect(fileText('staff.yaml')).toBe(
      `${before}  anneke: { name: Anneke, badge: STAFF-ANNEKE-04, language: en, role: packer }\n`,
    );
    const taken = await post<Refused>('/entry', {
      ...change,
      digest: added.body.digest,
      entry: 'anneke',
      id: 'lucia',
      value,
    });
    expect([taken.status, taken.body.problems[0]?.path]).toEqual([422, 'staff.lucia']);
    const { digest } = added.body;
    const renamed = await post<SettingsWritten>('/entry', {
      ...change,
      digest,
      entry: 'anneke',
      id: 'anneke-b',
      value,
    });
    expect(fileText('staff.yaml')).toContain('\n  anneke-b: { name: Anneke,');
    const gone = await post<SettingsWritten>('/remove', {
      section: 'staff',
      file: 'staff.yaml',
      digest: renamed.body.digest,
      entry: 'anneke-b',
    });
    expect(gone.status).toBe(200);
    expect(fileText('staff.yaml')).toBe(before);
  });

  it('that something refers to is not taken away, and what refers to it is named', async () => {
    const { change } = await entryOf('containers', 'pouch-10x13');
    const { section, file, digest, entry } = change;
    const refused = await post<Refused>('/remove', { section, file, digest, entry });
    expect(refused.status).toBe(422);
    expect(refused.body.problems).toContainEqual(
      expect.objectContaining({
        file: 'supplies.yaml',
        path: 'supplies.pouch-10x13.container',
        found: '"pouch-10x13"',
      }),
    );
    const used = await get<SettingsSection>('/section?section=garments');
    const kind = await post<Refused>('/remove', {
      section: 'garments',
      file: used.file,
      digest: used.digest,
      entry: 'jeans',
    });
    expect(kind.body.problems.map(({ path }) => path)).toContain('kinds.jeans');
  });

  it('of a list, with rows within rows: a service with its prices, refused at the row that does not hold', async () => {
    const file = 'rate-cards/merrow-post.yaml';
    const before = fileText(file);
    const view = await get<SettingsSection>(`/section?section=services&file=${encodeURIComponent(file)}`);
    const value = view.entries.find(({ id }) => id === 'light-parcel')?.value as {
      prices: { brackets: { upTo: string; prices: (number | string)[] }[] }[];
    };
    const change = { section: 'services', file, digest: view.digest, entry: 'light-parcel', id: 'light-parcel' };
    const dearer = structuredClone(value);
    dearer.prices[0]?.brackets[0]?.prices.splice(0, 1, 3.56);
    expect((await post<SettingsWritten>('/entry', { ...change, value: dearer })).status).toBe(200);
    expect(fileText(file)).toBe(before.replace('3.55', '3.56'));
    const { digest } = await get<SettingsText>(`/file?file=${encodeURIComponent(file)}`);
    const broken = structuredClone(dearer);
    broken.prices[0]?.brackets.reverse();
    const refused = await post<Refused>('/entry', { ...change, digest, value: broken });
    expect([refused.status, refused.body.problems[0]?.path]).toEqual([422, 'services[0].prices[0].brackets[1].upTo']);
  });
});

describe('a file as text', () => {
  it('is checked without being written, and shows its lines', async () => {
    const { file, text, digest } = await get<SettingsText>('/file?file=recipes.yaml');
    const wrong = text.replace('do: face-down', 'do: face-dwon');
    const checked = await post<TextChecked>('/check', { file, digest, text: wrong });
    expect(checked.body.problems[0]).toMatchObject({
      file,
      line: lineOf(config, file, 'do: face-down'),
      found: '"face-dwon"',
    });
    expect(checked.body.lines.filter(({ is }) => is === 'come').map((line) => line.text.trim())).toEqual([
      'do: face-dwon',
    ]);
    const refused = await post<Refused>('/text', { file, digest, text: wrong });
    expect(refused.status).toBe(422);
    expect(fileText(file)).toBe(text);
  });

  it('that was changed on the disk meanwhile is not written over', async () => {
    const { file, text, digest } = await get<SettingsText>('/file?file=shop.yaml');
    edit(config, file, 'Oddment & Thrum', 'Thrum & Oddment');
    const refused = await post<Refused>('/text', { file, digest, text: text.replace('21.00', '22.00') });
    expect([refused.status, refused.body.error]).toEqual([409, 'changed-meanwhile']);
    expect(fileText(file)).toContain('21.00');
    expect(fileText(file)).toContain('Thrum & Oddment');
  });

  it('is none that does not belong to the shop', async () => {
    writeFileSync(join(config, 'other.yaml'), 'a: 1\n');
    for (const file of ['other.yaml', '../secret.yaml', 'rate-cards/../shop.yaml', '/etc/hostname', '']) {
      expect((await fetch(`${server.url}/api/settings/file?file=${encodeURIComponent(file)}`)).status).toBe(404);
      expect((await post('/text', { file, digest: '', text: 'a: 2\n' })).status).toBe(404);
    }
  });

  it('may be a new rate card', async () => {
    const text = fileText('rate-cards/overfield-ground.yaml').replace(
      'carrier: overfield-ground',
      'carrier: third-carrier',
    );
    const made = await post<Refused>('/text', { file: 'rate-cards/third-carrier.yaml', digest: '', text });
    // Its services are those of another card: refused, and no file is left.
    expect(made.status).toBe(422);
    expect(readdirSync(join(config, 'rate-cards'))).not.toContain('third-carrier.yaml');
    const own = text.replaceAll(/id: (ground[a-z-]*|[a-z-]+)\n/gu, 'id: third-$1\n');
    expect((await post('/text', { file: 'rate-cards/third-carrier.yaml', digest: '', text: own })).status).toBe(200);
    expect(server.stations.size).toBeGreaterThan(0);
  });
});

describe('a rate card', () => {
  const card = {
    carrier: 'third-carrier',
    name: { en: 'Third', es: 'Tercera' },
    currency: 'USD',
    units: { mass: 'oz', length: 'in' },
    from: '2026-12-01',
    zones: [{ by: 'flat', zone: 'all' }],
    services: [
      {
        id: 'third-light',
        name: { en: 'Light', es: 'Ligero' },
        prices: [{ rule: 'weight-bracket', zones: ['all'], brackets: [{ upTo: '16 oz', prices: 6.1 }] }],
      },
    ],
  };
  const file = 'rate-cards/third-carrier.yaml';

  it('is filled in from what the shop is, without a price of ours', async () => {
    const { fields, value } = await get<NewRateCard>('/rate-card');
    expect(value).toMatchObject({ currency: 'USD', units: { mass: 'oz', length: 'in' } });
    expect(fields.map(({ key }) => key)).toContain('services');
    const empty = await post<Refused>('/rate-card', { name: 'third-carrier', value });
    expect(empty.status).toBe(422);
    expect(empty.body.problems.map(({ path }) => path)).toContain('services[0].prices[0].brackets[0].upTo');
    expect(readdirSync(join(config, 'rate-cards'))).not.toContain('third-carrier.yaml');
  });

  it('is added as a file, taken away where nothing refers to it, and restored', async () => {
    for (const name of ['../shop', 'Third', '']) {
      expect((await post<Refused>('/rate-card', { name, value: card })).status).toBe(422);
    }
    expect((await post<Refused>('/rate-card', { name: 'merrow-post', value: card })).status).toBe(409);
    const added = await post<SettingsWritten>('/rate-card', { name: 'third-carrier', value: card });
    expect([added.status, added.body.file]).toEqual([200, file]);
    expect(parse(fileText(file))).toEqual(card);
    const cards = async () => (await (await fetch(`${server.url}/api/rates/cards`)).text()).includes('third-light');
    expect(await cards()).toBe(true);
    // Merrow's is named by a collection and by containers of its own.
    const merrow = await get<SettingsText>('/file?file=rate-cards/merrow-post.yaml');
    const refused = await post<Refused>('/rate-card/remove', { file: merrow.file, digest: merrow.digest });
    expect(refused.status).toBe(422);
    expect(refused.body.problems.map((each) => each.path)).toContain('collections[0].carrier');
    expect(fileText(merrow.file)).toBe(merrow.text);
    const { digest } = added.body;
    expect((await post<Refused>('/rate-card/remove', { file, digest: 'x' })).status).toBe(409);
    expect((await post<Refused>('/rate-card/remove', { file: 'shop.yaml', digest })).status).toBe(404);
    expect((await post<SettingsWritten>('/rate-card/remove', { file, digest, by: 'maren' })).status).toBe(200);
    expect(await cards()).toBe(false);
    expect((await get<SettingsOverview>('')).removed).toEqual([file]);
    const [version] = await get<readonly EarlierVersion[]>(`/earlier?file=${file}`);
    expect(version).toMatchObject({ why: 'removed', byName: 'Maren' });
    const back = await post<SettingsWritten>('/restore', { file, digest: '', version: version?.id });
    expect(back.status).toBe(200);
    expect(await cards()).toBe(true);
    expect((await get<SettingsOverview>('')).removed).toEqual([]);
    const { rows } = (await (await fetch(`${server.url}/api/changes`)).json()) as ChangesView;
    expect(rows.slice(0, 3).map(({ what, about, details }) => [what, about, details.file])).toEqual([
      ['settings-restored', file, undefined],
      ['settings-changed', file, 'removed'],
      ['settings-changed', file, 'added'],
    ]);
    await post<SettingsWritten>('/rate-card/remove', { file, digest: back.body.digest });
  });
});

describe('the version before', () => {
  it('is kept with when and who, is compared and restored, and what it replaced is kept too', async () => {
    const first = fileText('shop.yaml');
    const { digest } = await get<SettingsText>('/file?file=shop.yaml');
    const second = first.replace("'21.00'", "'23.00'");
    const written = await post<SettingsWritten>('/text', { file: 'shop.yaml', digest, text: second, by: 'maren' });
    const [version] = await get<readonly EarlierVersion[]>('/earlier?file=shop.yaml');
    expect(version).toMatchObject({ id: written.body.version, why: 'changed', by: 'maren', byName: 'Maren' });
    const shown = await get<EarlierText>(`/earlier/${version?.id ?? ''}?file=shop.yaml`);
    expect(shown.text).toBe(first);
    expect(
      shown.lines.filter(({ is }) => is !== 'same' && is !== 'gap').map(({ is, text }) => [is, text.slice(0, 26)]),
    ).toEqual([
      ['gone', "labour: { perHour: '23.00'"],
      ['come', "labour: { perHour: '21.00'"],
    ]);
    const back = await post<SettingsWritten>('/restore', {
      file: 'shop.yaml',
      digest: written.body.digest,
      version: version?.id,
    });
    expect(back.status).toBe(200);
    expect(fileText('shop.yaml')).toBe(first);
    const all = await get<readonly EarlierVersion[]>('/earlier?file=shop.yaml');
    expect(all.map(({ why }) => why)).toEqual(['restored', 'changed']);
    expect(readdirSync(join(config, '.earlier'))).toEqual(['shop.yaml']);
  });
});

describe('files changed by hand', () => {
  const trouble = () => get<SettingsTrouble>('/trouble');

  it('are taken while the server runs, and what they were is kept', async () => {
    edit(config, 'shop.yaml', 'name: Oddment & Thrum', 'name: Thrum & Oddment');
    await vi.waitFor(async () => {
      expect((await (await fetch(`${server.url}/healthz`)).json()) as object).toMatchObject({
        shop: 'Thrum & Oddment',
      });
    }, 5000);
    const [version] = await get<readonly EarlierVersion[]>('/earlier?file=shop.yaml');
    expect(version).toMatchObject({ why: 'by-hand', by: null });
  });

  it('that cannot be used leave the shop as it was, are told with their line, and can be mended here', async () => {
    edit(config, 'staff.yaml', 'language: es', 'language: fr');
    await vi.waitFor(async () => {
      expect((await trouble()).problems).toHaveLength(1);
    }, 5000);
    const [problem] = (await trouble()).problems;
    expect(problem).toMatchObject({
      file: 'staff.yaml',
      line: lineOf(config, 'staff.yaml', 'language: fr'),
      found: '"fr"',
    });
    // Another file cannot be changed to something that does not hold, but it can be changed.
    const shop = await get<SettingsText>('/file?file=shop.yaml');
    const other = await post<SettingsWritten>('/text', { ...shop, text: shop.text.replace("'21.00'", "'24.00'") });
    expect([other.status, other.body.problems.length]).toEqual([200, 1]);
    const { file, text, digest } = await get<SettingsText>('/file?file=staff.yaml');
    expect((await post('/text', { file, digest, text: text.replace('language: fr', 'language: es') })).status).toBe(
      200,
    );
    expect(await trouble()).toEqual({ problems: [], since: null });
  });

  it('that are half written, unreadable or gone are told as they are and taken once they are well', async () => {
    const whole = fileText('cloths.yaml');
    writeFileSync(join(config, 'cloths.yaml'), whole.slice(0, 700));
    await vi.waitFor(async () => {
      expect((await trouble()).problems.length).toBeGreaterThan(0);
    }, 5000);
    writeFileSync(join(config, 'cloths.yaml'), Buffer.from([0xff, 0xfe, 0x00]));
    await vi.waitFor(async () => {
      expect(JSON.stringify(await trouble())).toContain('bytes that are not UTF-8');
    }, 5000);
    writeFileSync(join(config, 'cloths.yaml'), whole);
    await vi.waitFor(async () => {
      expect((await trouble()).problems).toEqual([]);
    }, 5000);
  });
});

describe('a bench', () => {
  it('has its devices opened anew as soon as it is free, and says so until then', async () => {
    const hands = new BenchClient(server.url, 'bench-1');
    await hands.at('idle');
    await hands.command('next');
    await hands.at('gather');
    const { change, value } = await entryOf('benches', 'bench-1');
    const scale = { ...(value['scale'] as object), transport: { kind: 'tcp', host: '127.0.0.1', port: 9 } };
    expect((await post('/entry', { ...change, value: { ...value, name: 'By the window', scale } })).status).toBe(200);
    const overview = await get<SettingsOverview>('');
    expect(overview.whenIdle).toHaveLength(1);
    expect(server.stations.get('bench-1')?.bench.name).not.toBe('By the window');
    await hands.command('release');
    await hands.command('confirm');
    await vi.waitFor(async () => {
      expect((await get<SettingsOverview>('')).whenIdle).toEqual([]);
    }, 5000);
    expect(server.stations.get('bench-1')?.bench.name).toBe('By the window');
    expect(server.stations.get('bench-1')?.devices.simulators.scale).toBeNull();
    hands.close();
  });

  it('that is new, and how a bench listens, come with the next start, which is told', async () => {
    const { change, value } = await entryOf('benches', 'bench-1');
    const added = await post<SettingsWritten>('/entry', {
      ...change,
      entry: null,
      id: 'bench-9',
      value: { ...value, name: 'Ninth' },
    });
    expect(added.status).toBe(200);
    expect((await get<SettingsOverview>('')).atNextStart).toEqual(['Ninth']);
    const voice = { microphone: { kind: 'screen' }, listening: 'push-to-talk', talkKeys: ['F19'] };
    await post('/entry', { ...change, digest: added.body.digest, value: { ...value, voice } });
    expect((await get<SettingsOverview>('')).atNextStart).toHaveLength(2);
  });
});

it('a folder that may not be written to loses nothing', async () => {
  // Stands where the versions would go.
  rmSync(join(config, '.earlier'), { recursive: true, force: true });
  writeFileSync(join(config, '.earlier'), '');
  const before = fileText('shop.yaml');
  const { file, text, digest } = await get<SettingsText>('/file?file=shop.yaml');
  const refused = await post<Refused>('/text', { file, digest, text: text.replace('21.00', '22.00') });
  expect([refused.status, refused.body.error]).toEqual([500, 'not-written']);
  expect(fileText('shop.yaml')).toBe(before);
});
