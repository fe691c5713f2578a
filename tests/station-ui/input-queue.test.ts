import { describe, expect, it } from 'vitest';
import type { Ack, BenchInput } from '#shared/wire/events.ts';
import { InputQueue } from '#station-ui/bench/input-queue.ts';
import type { Keeping, Outcome } from '#station-ui/bench/input-queue.ts';
import { uniqueId } from '#station-ui/bench/unique-id.ts';

const scan = (id: string): BenchInput => ({ id, type: 'scan', text: `OT-${id}`, by: 'scan' });
const turns = async (count = 20): Promise<void> => {
  for (let turn = 0; turn < count; turn++) await Promise.resolve();
};

function memory(): Keeping & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>();
  return { kept, getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => void kept.set(key, value) };
}

/** A queue on a server that answers as told; `answers` are taken in turn, then everything is well. */
function queueOn(answers: (Ack | null)[], keeping: Keeping = memory()) {
  const sent: string[] = [];
  const settled: Outcome[] = [];
  const queue = new InputQueue({
    key: 'waiting',
    keeping,
    send: (input) => {
      sent.push(input.id);
      const answer = answers.shift();
      return Promise.resolve(answer === undefined ? { ok: true, seq: sent.length } : answer);
    },
    wait: () => Promise.resolve(),
    changed: () => undefined,
    settled: (outcome) => settled.push(outcome),
  });
  return { queue, sent, settled };
}

describe('inputs on their way', () => {
  it('go out in order and are gone when acknowledged', async () => {
    const { queue, sent } = queueOn([]);
    queue.link(true);
    for (const id of ['a', 'b', 'c']) queue.add(scan(id));
    await turns();
    expect(sent).toEqual(['a', 'b', 'c']);
    expect(queue.list).toEqual([]);
  });

  it('wait while the link is lost and go out once it is back', async () => {
    const { queue, sent } = queueOn([]);
    queue.add(scan('a'));
    queue.add(scan('b'));
    await turns();
    expect(sent).toEqual([]);
    expect(queue.list.map((each) => each.id)).toEqual(['a', 'b']);
    queue.link(true);
    await turns();
    expect(sent).toEqual(['a', 'b']);
  });

  it('are sent again with the same id when no acknowledgement came, and nothing overtakes them', async () => {
    const { queue, sent, settled } = queueOn([null, null]);
    queue.link(true);
    queue.add(scan('a'));
    queue.add(scan('b'));
    await turns();
    expect(sent).toEqual(['a', 'a', 'a', 'b']);
    expect(settled.map(({ input, ack }) => [input.id, ack.ok])).toEqual([
      ['a', true],
      ['b', true],
    ]);
  });

  it('are sent again when the server could not store them, and given up when it never will', async () => {
    const { queue, sent } = queueOn([
      { ok: false, error: 'store-failed', message: '' },
      { ok: false, error: 'bad-request', message: '' },
    ]);
    queue.link(true);
    queue.add(scan('a'));
    queue.add(scan('b'));
    await turns();
    expect(sent).toEqual(['a', 'a', 'b']);
    expect(queue.list).toEqual([]);
  });

  it('survive a reload of the page with their ids', async () => {
    const keeping = memory();
    queueOn([], keeping).queue.add(scan('a'));
    const after = queueOn([], keeping);
    expect(after.queue.list.map((each) => each.id)).toEqual(['a']);
    after.queue.link(true);
    await turns();
    expect(after.sent).toEqual(['a']);
    expect(keeping.kept.get('waiting')).toBe('[]');
  });

  it('of every type survive it', () => {
    const keeping = memory();
    const all: readonly BenchInput[] = [
      scan('a'),
      { id: 'b', type: 'command', command: 'next', by: 'touch' },
      { id: 'c', type: 'digits', digits: '5', by: 'key' },
      { id: 'd', type: 'language', language: 'es' },
      { id: 'e', type: 'choose', option: 'skill:packing' },
    ];
    const { queue } = queueOn([], keeping);
    for (const input of all) queue.add(input);
    expect(queueOn([], keeping).queue.list).toEqual(all);
  });

  it.each(['not json', '{"id":"a"}', '[{"id":5,"type":"scan"},null]'])('leave out what was kept broken: %s', (kept) => {
    const keeping = memory();
    keeping.setItem('waiting', kept);
    expect(queueOn([], keeping).queue.list).toEqual([]);
  });
});

describe('ids', () => {
  it('are unique and have the form of RFC 9562, version 4, without randomUUID too', () => {
    const form = /^[\da-f]{8}-[\da-f]{4}-4[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/;
    const plain = { getRandomValues: crypto.getRandomValues.bind(crypto) };
    const ids = Array.from({ length: 500 }, (_, index) => uniqueId(index % 2 === 0 ? plain : {}));
    for (const id of ids) expect(id).toMatch(form);
    expect(new Set(ids).size).toBe(ids.length);
  });
});
