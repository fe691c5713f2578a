const MOST = 20;

/** Which photos were dealt with at this tablet, over reloads: the newest few. */
export function photosDone(bench: string): { has: (key: string) => boolean; add: (key: string) => void } {
  const keptAs = `benchfold.photos.${bench}`;
  let done = read(keptAs);
  return {
    has: (key) => done.includes(key),
    add: (key) => {
      done = [...done.filter((each) => each !== key), key].slice(-MOST);
      try {
        localStorage.setItem(keptAs, JSON.stringify(done));
      } catch {
        // No storage: they are known as long as the page lives.
      }
    },
  };
}

function read(key: string): readonly string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? '[]');
    return Array.isArray(kept) ? kept.filter((each): each is string => typeof each === 'string') : [];
  } catch {
    return [];
  }
}
