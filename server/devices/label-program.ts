import { spawn } from 'node:child_process';
import type { PrintResult } from '#drivers/printer/printer-driver.ts';

const WITHIN_MS = 30_000;
const MOST_SAID = 200;

/**
 * Gives a document to the program that prints here, on its input; no shell is between. It says by its exit code whether it
 * took it: 0 counts as printed, another one as failed, and what does not end in time may have printed or not.
 */
export function runLabelProgram(
  { program, arguments: args }: { readonly program: string; readonly arguments: readonly string[] },
  document: Uint8Array,
  withinMs = WITHIN_MS,
): Promise<PrintResult> {
  return new Promise((resolve) => {
    const child = spawn(program, args, { stdio: ['pipe', 'ignore', 'pipe'], shell: false, windowsHide: true });
    let said = '';
    const deadline = setTimeout(() => {
      child.kill('SIGKILL');
      resolve({ outcome: 'unknown', why: 'no-end' });
    }, withinMs);
    child.stderr.on('data', (chunk: Buffer) => {
      if (said.length < MOST_SAID) said += chunk.toString('utf8');
    });
    // A program that reads nothing and ends is judged by its exit code.
    child.stdin.on('error', () => undefined);
    child.on('error', (error) => {
      clearTimeout(deadline);
      resolve({ outcome: 'failed', why: error.message });
    });
    child.on('close', (code, signal) => {
      clearTimeout(deadline);
      if (code === 0) resolve({ outcome: 'printed', why: 'printed' });
      else if (signal !== null) resolve({ outcome: 'unknown', why: `ended by ${signal}` });
      else resolve({ outcome: 'failed', why: `exit ${String(code)} ${said.slice(0, MOST_SAID).trim()}`.trim() });
    });
    child.stdin.end(document);
  });
}
