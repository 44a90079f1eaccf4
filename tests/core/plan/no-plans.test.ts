/** Files that are no plans at all, or no YAML: too large, too deep, cut off. */
import { describe, expect, test } from 'vitest'
import { problemsOf } from '../../support/spoilt-plan.ts'

describe('files that are no plans', () => {
  test.each([
    ['an empty file', '', /an empty file/],
    ['only a comment', '# to be written\n', /an empty file/],
    ['a list', '- F1\n- F2\n', /a list/],
    ['a single word', 'fans\n', /only "fans"/],
    ['a plan without parts', 'build: x\n', /no parts/],
    ['parts with nothing under it', 'parts:\n', /no parts/],
  ])('%s', (_, text, found) => {
    const problems = problemsOf(text)
    expect(problems).toHaveLength(1)
    expect(problems[0]?.found).toMatch(found)
  })

  test('a second document', () => {
    expect(problemsOf('parts: { F1: { kind: fan } }\n---\nparts: {}\n')).toMatchObject([
      { at: { line: 2, col: 1 }, found: 'a second document (---)' },
    ])
  })

  test.each([
    [
      'a bracket that is never closed',
      'build: x\nparts:\n  F1: { kind: fan, motor: { amps: 1 }\n',
      { line: 3, col: 7 },
      /never closed/,
    ],
    ['a quote that is never closed', 'build: "x\nparts: {}\n', { line: 1, col: 8 }, /quote/],
    ['a tab for an indent', 'parts:\n\tF1: { kind: fan }\n', { line: 2, col: 1 }, /tab/],
    ['a line without a colon', 'parts:\n  F1 { kind: fan }\n  F2: { kind: fan }\n', { line: 2 }, /./],
    ['an alias of nothing', 'parts: { F1: *nowhere }\n', { line: 1, col: 14 }, /"\*nowhere"/],
    ['a tag', 'parts: { F1: !fan { kind: fan } }\n', { line: 1 }, /tag/],
  ])('%s', (_, text, at, found) => {
    const problem = problemsOf(text).find((p) => found.test(p.found))
    expect(problem, JSON.stringify(problemsOf(text))).toMatchObject({ at })
  })

  test('aliases that multiply into millions of values', () => {
    const rows = 'bcdefghij'
      .split('')
      .map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghij'[i]}`).join(',')}]`)
    expect(problemsOf(`a: &a [x,x,x,x,x,x,x,x,x]\n${rows.join('\n')}\n`)[0]?.found).toMatch(/multiply/)
  })

  test('brackets nested a hundred thousand deep', () => {
    expect(problemsOf('['.repeat(100_000))[0]?.found).toMatch(/nested/)
  })

  test('five megabytes', () => {
    const text = `parts:\n${'  # more of the same, and again\n'.repeat(160_000)}`
    expect(problemsOf(text)).toMatchObject([{ found: 'a text of 5.1 million characters' }])
  })
})
