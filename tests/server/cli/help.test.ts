import { describe, expect, it } from 'vitest';
import { COMMANDS, runCli } from '#server/cli/cli.ts';

const nowhere = {
  now: 0,
  config: 'config',
  workingFolder: '.',
  stdin: () => new Uint8Array(),
  wire: 'build/api/wire.json',
  templates: 'config',
};
/** Every `--name` that a usage line names. */
const named = (usage: string) => new Set([...usage.matchAll(/--([a-z][\w-]*)/g)].map(([, name = '']) => name));

describe('the help of the command line', () => {
  it.each(Object.entries(COMMANDS))('names exactly the options that %s takes', async (name, command) => {
    const taken = new Set([...command.options, ...(command.flags ?? [])]);
    expect([...named(command.usage)].sort()).toEqual([...taken].sort());
    expect(command.usage.startsWith(name)).toBe(true);
    // What may be repeated says so.
    for (const option of command.repeatable ?? [])
      expect(command.usage).toMatch(new RegExp(`--${option}\\b.*\\.\\.\\.`));
    expect(await runCli([name, '--help'], nowhere)).toMatchObject({ exit: 0, stderr: '' });
    expect(await runCli([name, '--no-such-option'], nowhere)).toMatchObject({ exit: 2, stdout: '' });
  });

  it('lists every command', async () => {
    const { stdout } = await runCli(['help'], nowhere);
    for (const name of Object.keys(COMMANDS)) expect(stdout).toContain(`\n  ${name}`);
  });
});

describe('what --json prints', () => {
  it('carries the version of its shape beside what it always had', async () => {
    const { stdout } = await runCli(['check', 'config', '--json'], nowhere);
    expect(JSON.parse(stdout)).toMatchObject({ version: 1, valid: true, problems: [] });
  });

  it('is the document of the API, as the server has it', async () => {
    expect(JSON.parse((await runCli(['api', '--json'], nowhere)).stdout)).toMatchObject({ openapi: '3.1.0' });
    const { stdout, stderr } = await runCli(['api', '--events', '--json'], nowhere);
    expect({ stderr, document: JSON.parse(stdout) as unknown }).toMatchObject({
      stderr: '',
      document: { asyncapi: '3.0.0', channels: { bench: { address: '/bench' } } },
    });
  });
});
