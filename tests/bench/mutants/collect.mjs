/** What a test file asks of the test library, in as few words as the quick unit tests need: collected, not run. */
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  chai,
  customMatchers,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect'

chai.use(JestExtend)
chai.use(JestChaiExpect)
chai.use(JestAsymmetricMatchers)
const expect = (value, message) => chai.expect(value, message)
Object.assign(expect, chai.expect)
setState({ assertionCalls: 0, isExpectingAssertions: false, expectedAssertionsNumber: null }, expect)
Object.defineProperty(globalThis, GLOBAL_EXPECT, { value: expect, configurable: true, writable: true })
chai.expect.extend(expect, customMatchers)
const matchers = globalThis[ASYMMETRIC_MATCHERS_OBJECT]
for (const name of Object.keys(Object.getOwnPropertyDescriptors(matchers))) expect[name] ??= matchers[name]
expect.fail ??= chai.assert.fail

/** A name with its row put in: `%s`, `%i`, `%j`, and `$key` of a record. */
function filled(name, row) {
  const list = Array.isArray(row) ? row : [row]
  let next = 0
  return name
    .replace(/%([sdijo%])/g, (_, as) =>
      as === '%' ? '%' : 'jo'.includes(as) ? JSON.stringify(list[next++]) : String(list[next++]),
    )
    .replace(/\$(\w+)/g, (whole, key) => String(list[0]?.[key] ?? whole))
}

const chain = (suite) => (suite ? [...chain(suite.parent), suite] : [])

/** Fresh test functions, and the tests of one file in the order in which they are written. */
export function collector(file) {
  const tests = []
  const names = new Map()
  const suiteIn = (parent, name) => ({ parent, name, first: [], before: [], after: [], begun: false })
  let suite = suiteIn(undefined, '')

  const describe = (name, ...rest) => {
    suite = suiteIn(suite, name)
    rest.find((x) => typeof x === 'function')()
    suite = suite.parent
  }
  const it = (name, ...rest) => {
    const body = rest.find((x) => typeof x === 'function')
    const around = chain(suite)
    const path = [...around.map((s) => s.name).filter(Boolean), name].join(' > ')
    const count = (names.get(path) ?? 0) + 1
    names.set(path, count)
    const run = async () => {
      for (const s of around) {
        if (!s.begun) for (const hook of s.first) await hook()
        s.begun = true
      }
      for (const s of around) for (const hook of s.before) await hook()
      try {
        await body({ expect })
      } finally {
        for (const s of around) for (const hook of s.after) await hook()
      }
    }
    tests.push({ file, id: `${file}#${path}${count > 1 ? ` (${count})` : ''}`, run })
  }
  const each =
    (one) =>
    (rows) =>
    (name, ...rest) => {
      const body = rest.find((x) => typeof x === 'function')
      for (const row of rows) one(filled(name, row), () => (Array.isArray(row) ? body(...row) : body(row)))
    }
  describe.each = each(describe)
  it.each = each(it)
  const functions = {
    describe,
    it,
    test: it,
    expect,
    beforeAll: (hook) => suite.first.push(hook),
    beforeEach: (hook) => suite.before.push(hook),
    afterEach: (hook) => suite.after.push(hook),
    afterAll: () => {},
  }
  return { tests, functions }
}
