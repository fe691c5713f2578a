/** One test, with what its suites do around it. */
function testOf(file, suite, name, run) {
  const names = [name];
  for (let each = suite; each.outer !== null; each = each.outer) names.unshift(each.name);
  return { id: `${file}#${names.join(' ')}`, name: names.join(' '), suite, run };
}

/** Cases of a table, as the arguments of each. */
const rows = (cases) => [...cases].map((each) => (Array.isArray(each) ? each : [each]));

/** The part of the test library that the core's tests use: it notes the tests instead of running them. */
function collector(file, library, tests) {
  let suite = { name: '', outer: null, before: [], beforeAll: [], after: [] };
  const functionOf = (more) => more.find((each) => typeof each === 'function');
  const it = (name, ...more) => {
    const same = tests.filter((each) => each.plain === name && each.suite === suite).length;
    const test = testOf(file, suite, same === 0 ? name : `${name} (${String(same + 1)})`, functionOf(more));
    tests.push({ ...test, plain: name });
  };
  const describe = (name, ...more) => {
    suite = { name, outer: suite, before: [], beforeAll: [], after: [] };
    functionOf(more)();
    suite = suite.outer;
  };
  const each =
    (one) =>
    (cases) =>
    (name, ...more) => {
      for (const args of rows(cases)) one(name, () => functionOf(more)(...args));
    };
  it.each = each(it);
  describe.each = each(describe);
  return {
    ...library,
    it,
    test: it,
    describe,
    beforeEach: (run) => suite.before.push(run),
    beforeAll: (run) => suite.beforeAll.push({ run, done: false }),
    afterEach: (run) => suite.after.push(run),
    afterAll: () => undefined,
  };
}

/** Runs a test with what stands before and after it; what it throws is its failure. */
export async function runTest({ suite, run }) {
  const suites = [];
  for (let each = suite; each !== null; each = each.outer) suites.unshift(each);
  for (const each of suites) {
    for (const once of each.beforeAll) {
      if (!once.done) await once.run();
      once.done = true;
    }
  }
  for (const each of suites) for (const before of each.before) await before();
  try {
    await run();
  } finally {
    for (const each of suites.toReversed()) for (const after of each.after) await after();
  }
}

/** The tests of a bundled file, its modules loaded anew. */
export function testsOf({ file, load }, library) {
  const tests = [];
  load(collector(file, library, tests));
  return tests;
}
