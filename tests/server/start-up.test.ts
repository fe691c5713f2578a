import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { spawnServer, startProcess, temporaryFolder, type Launch } from '#tests/support/server-process.ts';

const data = temporaryFolder('start-up');

afterAll(() => data.remove());

interface Ended {
  readonly code: number | null;
  readonly lines: readonly string[];
}

/** Starts a server that cannot start: what it said on stderr and how it ended. */
function refusedStart(launch: Partial<Launch>, environment: NodeJS.ProcessEnv = {}): Promise<Ended> {
  const child = spawnServer({ data: data.path, ...launch }, environment);
  let said = '';
  child.stderr?.on('data', (chunk: Buffer) => (said += chunk.toString()));
  return new Promise((done) => child.once('close', (code) => done({ code, lines: said.trim().split('\n') })));
}

/** The status of the first answer of a server that may not be there yet. */
async function firstAnswer(url: string): Promise<number> {
  for (;;) {
    const status = await fetch(`${url}/healthz`).then(
      (answer) => answer.status,
      () => null,
    );
    if (status !== null) return status;
    await new Promise((soon) => setImmediate(soon));
  }
}

describe('what keeps the server from starting is one line and exit code 1', () => {
  it('a taken port', async () => {
    const other = createServer();
    await new Promise<void>((listening) => other.listen(0, '127.0.0.1', listening));
    const { port } = other.address() as AddressInfo;
    const { code, lines } = await refusedStart({ port });
    other.close();
    expect(code).toBe(1);
    expect(lines).toEqual([`PORT ${String(port)}: expected a free port, found another program on it`]);
  });

  it('a port that is none', async () => {
    expect(await refusedStart({}, { PORT: '80x' })).toEqual({
      code: 1,
      lines: ['PORT: expected a number from 0 to 65535, found "80x"'],
    });
  });

  it('an address of another computer', async () => {
    // 192.0.2.0/24 is kept for documents (RFC 5737): no computer has an address of it.
    expect(await refusedStart({}, { BENCHFOLD_HOST: '192.0.2.1' })).toEqual({
      code: 1,
      lines: ['BENCHFOLD_HOST: expected an address of this computer, found "192.0.2.1"'],
    });
  });

  it('a config folder that is not there, or is a file', async () => {
    const nowhere = join(data.path, 'nowhere');
    const file = join(data.path, 'shop.txt');
    writeFileSync(file, 'a shop');
    // What it packs would be kept in that very folder: a name that was written wrong makes none.
    expect(await refusedStart({ config: nowhere }, { BENCHFOLD_DATA: '' })).toEqual({
      code: 1,
      lines: [`${nowhere}  expected a folder with the shop's files; found no such folder`],
    });
    expect(existsSync(nowhere)).toBe(false);
    expect((await refusedStart({ config: file })).lines).toEqual([
      `${file}  expected a folder with the shop's files; found a file`,
    ]);
  });

  it('a data folder that is a file', async () => {
    const file = join(data.path, 'data.txt');
    writeFileSync(file, '');
    const { code, lines } = await refusedStart({ data: file });
    expect(code).toBe(1);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain(`data folder ${file}: expected a folder that can be written to`);
  });

  it('a store that is none', async () => {
    const folder = join(data.path, 'garbage');
    mkdirSync(folder);
    writeFileSync(join(folder, 'benchfold.db'), 'not a store at all, '.repeat(100));
    expect(await refusedStart({ data: folder })).toEqual({
      code: 1,
      lines: [
        `data folder ${folder}: its store is damaged (file is not a database). Nothing was changed. There is no backup in ${join(folder, 'backups')}; if there is one elsewhere: npm run -s cli -- restore --from BACKUP --to FOLDER --replace`,
      ],
    });
  });
});

describe('one data folder', () => {
  const shared = temporaryFolder('one-folder');
  let stop: (() => Promise<unknown>) | null = null;

  afterEach(async () => {
    await stop?.();
    shared.remove();
  });

  it('has one server at a time, and the next one when that has ended, however it ended', async () => {
    const first = await startProcess({ data: shared.path });
    stop = () => first.stop();
    const { code, lines } = await refusedStart({ data: shared.path });
    expect(code).toBe(1);
    expect(lines).toEqual([
      `data folder ${shared.path}: expected no other server on it, found one running; stop that one or set BENCHFOLD_DATA`,
    ]);
    expect((await fetch(`${first.url}/healthz`)).status).toBe(200);
    await first.kill();
    // Nobody is answered before every bench is where it was: what a screen sent sooner would be taken for another moment.
    const early = firstAnswer(first.url);
    const second = await startProcess({ data: shared.path, port: first.port });
    stop = () => second.stop();
    expect(await early).toBe(200);
    expect(await second.stop()).toBe(0);
    const third = await startProcess({ data: shared.path });
    stop = () => third.stop();
  });
});

describe('Ctrl-C and SIGTERM', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)(
    '%s ends a server with open pages within a second, with exit code 0',
    async (signal) => {
      const folder = temporaryFolder('stop');
      // In an empty folder a shop is begun, which keeps its log and all else in a folder within.
      const own = { config: folder.path, environment: { BENCHFOLD_DATA: '' } };
      const server = await startProcess({ data: folder.path, ...own });
      expect(readdirSync(folder.path)).toEqual(expect.arrayContaining(['data', 'shop.yaml']));
      const page = new AbortController();
      // A browser keeps its connection open, and may be in the middle of sending.
      await fetch(`${server.url}/office`, { signal: page.signal });
      const sending = fetch(`${server.url}/api/imports/pieces/preview`, {
        method: 'POST',
        body: new ReadableStream({ start: (body) => body.enqueue(new TextEncoder().encode('sku,title\n')) }),
        duplex: 'half',
        signal: page.signal,
      }).catch(() => 'cut');
      await new Promise((arrived) => setTimeout(arrived, 200));
      const before = Date.now();
      expect(await server.stop(signal)).toBe(0);
      expect(Date.now() - before).toBeLessThan(1000);
      page.abort();
      await sending;
      folder.remove();
    },
  );
});
