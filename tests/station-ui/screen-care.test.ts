import { describe, expect, it } from 'vitest';
import { Awake } from '#station-ui/bench/awake.ts';
import type { AwakeTrouble, Lock } from '#station-ui/bench/awake.ts';
import { Renewal, versionHere } from '#station-ui/bench/page-version.ts';

const settle = () => new Promise((done) => setTimeout(done, 0));

/** A tablet that gives locks, or refuses; it takes a lock back when its page is hidden, as browsers do. */
function tablet(offers = true) {
  const told: (AwakeTrouble | null)[] = [];
  const held: { release: () => void }[] = [];
  const state = { hidden: false, refuses: false };
  const request = (): Promise<Lock> => {
    if (state.refuses || state.hidden) return Promise.reject(new DOMException('no', 'NotAllowedError'));
    const heard: (() => void)[] = [];
    const lock = {
      release: () => {
        held.splice(held.indexOf(lock), 1);
        heard.forEach((each) => each());
        return Promise.resolve();
      },
      addEventListener: (_: 'release', listener: () => void) => void heard.push(listener),
    };
    held.push(lock);
    return Promise.resolve(lock);
  };
  const awake = new Awake({
    request: offers ? request : null,
    hidden: () => state.hidden,
    changed: (trouble) => told.push(trouble),
  });
  return {
    awake,
    held,
    state,
    said: () => told.at(-1) ?? null,
    turn: (hidden: boolean) => {
      state.hidden = hidden;
      if (hidden) [...held].forEach((lock) => lock.release());
      awake.hiddenOrSeen();
    },
  };
}

describe('a screen that is kept awake', () => {
  it('is so from when the shop wants it until it does not', async () => {
    const { awake, held, said } = tablet();
    await settle();
    expect(held).toHaveLength(0);
    awake.want(true);
    awake.want(true);
    await settle();
    expect(held).toHaveLength(1);
    expect(said()).toBeNull();
    awake.want(false);
    await settle();
    expect(held).toHaveLength(0);
  });

  it('is kept awake again when the page is seen again', async () => {
    const { awake, held, turn, said } = tablet();
    awake.want(true);
    await settle();
    turn(true);
    await settle();
    expect([held.length, said()]).toEqual([0, null]);
    turn(false);
    await settle();
    expect([held.length, said()]).toEqual([1, null]);
  });

  it('says that it may go dark when the tablet refuses, and no longer once it does not', async () => {
    const { awake, held, state, said } = tablet();
    state.refuses = true;
    awake.want(true);
    await settle();
    expect(said()).toBe('refused');
    state.refuses = false;
    awake.hiddenOrSeen();
    await settle();
    expect([held.length, said()]).toEqual([1, null]);
  });

  it('tells a lock that is taken away before the packer’s eyes', async () => {
    const { awake, held, state, said } = tablet();
    awake.want(true);
    await settle();
    state.refuses = true;
    held[0]?.release();
    await settle();
    expect(said()).toBe('refused');
  });

  it('says so where the browser has no locks, but not where the shop wants none', async () => {
    const { awake, said } = tablet(false);
    awake.hiddenOrSeen();
    await settle();
    expect(said()).toBeNull();
    awake.want(true);
    await settle();
    expect(said()).toBe('not-offered');
  });
});

describe('a page that is older than the server’s', () => {
  const keeping = () => {
    const kept = new Map<string, string>();
    return {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, to: string) => void kept.set(key, to),
    };
  };

  it('is loaded anew at rest, once', () => {
    let renewed = 0;
    const store = keeping();
    const page = () => new Renewal({ here: 'old', keeping: store, renew: () => (renewed += 1) });
    const first = page();
    first.atRest();
    expect([first.older, renewed]).toEqual([false, 0]);
    first.told('new');
    expect([first.older, renewed]).toEqual([true, 0]);
    first.atRest();
    expect(renewed).toBe(1);
    // It came back as it was: not for ever, but a person may try.
    const second = page();
    second.told('new');
    second.atRest();
    expect([second.older, renewed]).toEqual([true, 1]);
    second.now();
    expect(renewed).toBe(2);
    // A newer one still is another matter.
    second.told('newer');
    second.atRest();
    expect(renewed).toBe(3);
  });

  it('is never loaded anew where that could not be remembered, or where it was never built', () => {
    const forbidden = () => {
      throw new Error('no storage');
    };
    for (const [here, store] of [
      ['old', { getItem: forbidden, setItem: forbidden }],
      [null, keeping()],
    ] as const) {
      const renewal = new Renewal({ here, keeping: store, renew: () => expect.unreachable() });
      renewal.told('new');
      renewal.atRest();
    }
  });

  it('says which it is', () => {
    expect(versionHere()).toBeNull();
    const meta = document.createElement('meta');
    meta.name = 'pages-version';
    document.head.append(meta);
    meta.content = 'unbuilt';
    expect(versionHere()).toBeNull();
    meta.content = 'f1a2c5c2fec8';
    expect(versionHere()).toBe('f1a2c5c2fec8');
    meta.remove();
  });
});
