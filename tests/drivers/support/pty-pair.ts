import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Two pseudo-terminals joined like a null-modem cable: what is written at one end is read at the other. */
export interface PtyPair {
  readonly ours: string;
  readonly theirs: string;
  /** Pulls the cable out: both ends vanish. */
  pull(): Promise<void>;
}

export async function ptyPair(): Promise<PtyPair> {
  const folder = mkdtempSync(join(tmpdir(), 'pty-'));
  return joinPair(join(folder, 'ours'), join(folder, 'theirs'), folder);
}

/** Puts a pair at paths where one was before. */
export async function joinPair(ours: string, theirs: string, folder?: string): Promise<PtyPair> {
  const socat = spawn('socat', [`pty,raw,echo=0,link=${ours}`, `pty,raw,echo=0,link=${theirs}`], { stdio: 'ignore' });
  const gone = new Promise<void>((resolve) => socat.once('exit', () => resolve()));
  const deadline = Date.now() + 3000;
  while (!existsSync(ours) || !existsSync(theirs)) {
    if (Date.now() > deadline) throw new Error('socat made no pseudo-terminals');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  return {
    ours,
    theirs,
    async pull() {
      socat.kill('SIGTERM');
      await gone;
      if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
    },
  };
}
