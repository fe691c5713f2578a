import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { databaseFor } from './shared-cluster.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** The built server as a process of its own, on a data folder that may outlive it. */
export interface ServerProcess {
  readonly port: number;
  readonly url: string;
  readonly output: () => string;
  /** no chance to tidy up: as when the power goes */
  kill(): Promise<void>;
  /** asked politely; answers the exit code */
  stop(signal?: 'SIGTERM' | 'SIGINT'): Promise<number | null>;
}

export function temporaryFolder(name: string): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), `benchfold-${name}-`));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

export interface Launch {
  readonly data: string;
  readonly port?: number;
  readonly config?: string;
  readonly environment?: NodeJS.ProcessEnv;
  /** as DATABASE_URL has it */
  readonly database?: string | null;
}

/** Spawns the server and leaves it running; for what it says when it cannot start. */
export function spawnServer(
  { data, port = 0, config, database }: Launch,
  environment: NodeJS.ProcessEnv = {},
): ChildProcess {
  return spawn(process.execPath, [join(ROOT, 'build/server/main.js')], {
    env: {
      ...process.env,
      PORT: String(port),
      BENCHFOLD_DATA: data,
      ...(config === undefined ? {} : { BENCHFOLD_CONFIG: config }),
      ...(database == null ? {} : { DATABASE_URL: database }),
      ...environment,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

/** Starts the server and waits until it is ready. */
export async function startProcess(launch: Launch): Promise<ServerProcess> {
  const database = launch.database ?? (await databaseFor(launch.data));
  const child = spawnServer({ ...launch, database }, launch.environment);
  let output = '';
  child.stdout?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  child.stderr?.on('data', (chunk: Buffer) => (output += chunk.toString()));
  const exited = new Promise<number | null>((done) => child.once('exit', done));
  const port = await new Promise<number>((found, failed) => {
    const look = () => {
      const match = /localhost:(\d+)\/office/.exec(output);
      if (match !== null) found(Number(match[1]));
    };
    child.stdout?.on('data', look);
    void exited.then((code) => failed(new Error(`the server ended with ${String(code)}: ${output}`)));
  });
  return {
    port,
    url: `http://localhost:${String(port)}`,
    output: () => output,
    async kill() {
      child.kill('SIGKILL');
      await exited;
    },
    async stop(signal = 'SIGTERM') {
      child.kill(signal);
      return exited;
    },
  };
}
