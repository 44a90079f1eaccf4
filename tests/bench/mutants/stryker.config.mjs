/**
 * Mutation testing by hand, never in CI; DEVELOPERS.md says how. What is asked for comes from the environment:
 * MUTATE and TESTS are lists with commas, EACH takes each nth mutant, LONGEST leaves out tests that take more
 * milliseconds of processor time, LOG keeps what became of each mutant, a line of JSON each.
 */
const list = (text) => text.split(',').filter(Boolean)
const number = (text, usual) => (text ? Number(text) : usual)
const { MUTATE = 'src/core/bench/**/*.ts', TESTS = 'tests/core/bench,tests/core/faults' } = process.env
const { EACH, LONGEST, LOG } = process.env

export default {
  testRunner: 'bundled',
  plugins: ['./tests/bench/mutants/runner.mjs'],
  warnings: { unknownOptions: false },
  bundled: { tests: list(TESTS), each: number(EACH, 1), longest: number(LONGEST, 1e9), log: LOG },
  mutate: list(MUTATE),
  coverageAnalysis: 'perTest',
  concurrency: 1,
  // TypeScript 7 has no interface for programs, and nothing here needs its settings.
  tsconfigFile: 'none.json',
  ignorePatterns: ['dist', 'docs/screens', 'reports'],
  reporters: ['clear-text', 'json'],
  clearTextReporter: { logTests: false, reportTests: false, allowColor: false },
  timeoutMS: 60_000,
  timeoutFactor: 6,
  dryRunTimeoutMinutes: 20,
}
