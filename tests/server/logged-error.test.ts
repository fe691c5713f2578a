import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { loggedError } from '#server/logged-error.ts';

const NAME = "Zqbuyer O'Zqson";
const json = (error: unknown) => JSON.stringify(loggedError(error));

it('keeps kind, code and place of an error, and nothing that may be somebody’s', () => {
  // as a database says it: the row that did not fit
  const failed = Object.assign(new Error(`duplicate key value: expected none, found "${NAME}" and '${NAME}'`), {
    code: '23505',
    detail: `Key (buyer)=(${NAME}) already exists.`,
    where: `JSON data, line 1: {"buyer":"${NAME}"`,
    parameters: [NAME],
  });
  failed.stack = `Error: ${NAME}\n${NAME}\n    at pack (/srv/pack.ts:4:9)\n    at run (/srv/run.ts:1:2)`;
  const outer = new Error('an input', { cause: failed });
  for (const error of [failed, outer, NAME, { buyer: NAME }]) expect(json(error)).not.toContain('Zq');
  expect(loggedError(failed)).toEqual({
    type: 'Error',
    code: '23505',
    message: 'duplicate key value: expected none, found "..."',
    stack: '    at pack (/srv/pack.ts:4:9)\n    at run (/srv/run.ts:1:2)',
  });
  expect(loggedError(outer)).toMatchObject({ message: 'an input', cause: { code: '23505' } });
});

it('says nothing of what could not be read as JSON, and everything of a file that is not there', () => {
  try {
    JSON.parse(`{"buyer": "${NAME}" "note"`);
  } catch (error) {
    expect(json(error)).not.toContain('Zq');
    expect(loggedError(error)).toMatchObject({ type: 'SyntaxError' });
  }
  try {
    readFileSync('/no/such/file');
  } catch (error) {
    expect(loggedError(error)).toMatchObject({
      code: 'ENOENT',
      message: expect.stringContaining('/no/such') as string,
    });
  }
});
