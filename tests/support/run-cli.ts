import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface CliRun {
  readonly exit: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

const MAIN = fileURLToPath(new URL('../../server/cli/main.ts', import.meta.url));

/** Runs the command line as a process of its own, in a folder that is not the project's. */
export async function runCliProcess(args: readonly string[], environment: NodeJS.ProcessEnv = {}): Promise<CliRun> {
  const loader = import.meta.resolve('tsx');
  const usual = Object.fromEntries(
    Object.entries(process.env).filter(([name]) => name !== 'INIT_CWD' && name !== 'BENCHFOLD_CONFIG'),
  );
  const child = spawn(process.execPath, ['--import', loader, MAIN, ...args], {
    cwd: '/',
    env: { ...usual, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', (part: Buffer) => (stdout += part.toString()));
  child.stderr.on('data', (part: Buffer) => (stderr += part.toString()));
  const exit = await new Promise<number | null>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', resolve);
  });
  return { exit, stdout, stderr };
}
