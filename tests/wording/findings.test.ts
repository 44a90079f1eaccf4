/** Every rule can be said: one line with what is wrong and one with what to do, no blank where a fact should be. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../src/core/audit/audit.ts'
import { families } from '../../src/core/audit/rules.ts'
import { findingWords } from '../../src/wording/en/findings.ts'
import { findingText } from '../../src/wording/findings.ts'
import { rulesPage } from '../../src/wording/rules-page.ts'
import { ruleCases } from '../core/audit/all-cases.ts'
import { build } from '../support/build.ts'

const rules = families.flatMap((family) => family.rules)

describe('findings in words', () => {
  test('each rule has words and no words are without a rule', () => {
    expect(Object.keys(findingWords.rules).sort()).toEqual(rules.map((r) => r.id).sort())
    for (const { family } of families) expect(findingWords.families[family]).toBeTruthy()
  })

  test.each(ruleCases.map((c) => [c.rule, c] as const))(
    '%s is said with its figure and without a blank',
    (id, { make }) => {
      const found = audit(make(true).plan()).filter((f) => f.rule === id)
      for (const finding of found) {
        const { says, todo, title } = findingText(findingWords, finding)
        for (const text of [says, todo, title]) {
          expect(text).not.toMatch(/undefined|NaN|Infinity|\[object| {2}|^ | $|\n/)
          expect(text).not.toMatch(/(^|\s)(,|and )?(of|by|at|on|from|the|with) (,|;|:|$)/)
          expect(text.length).toBeGreaterThan(5)
        }
        // every fact's place in the sentence was filled: no two blanks, no blank before a comma
        expect(says).not.toMatch(/ [,;:)]|\( /)
        expect(says.length).toBeLessThan(260)
      }
    },
  )

  test('a finding that rests on an assumed value says so', () => {
    const [finding] = audit(
      build()
        .header('SYS1', { amps: 'unknown' })
        .plainFan('F1', { motor: { amps: 1.1, start_amps: 1.2 } })
        .lead('F1.motor', 'board.SYS1')
        .plan(),
    ).filter((f) => f.rule === 'header-over-current')
    expect(finding?.severity).toBe('may-not-work')
    expect(findingText(findingWords, finding!).says).toContain('assumed value: board.fan_headers.SYS1.amps')
  })

  test('a name with control bytes and a very long list are made fit for a line', () => {
    const made = build().header('SYS1', { amps: 1 })
    const ids = Array.from({ length: 12 }, (_, i) => `F${i + 1}`)
    for (const id of ids) made.plainFan(id)
    const [finding] = audit(made.splitter('Y1', ids).lead('Y1.in', 'board.SYS1').plan()).filter(
      (f) => f.rule === 'header-over-current',
    )
    expect(findingText(findingWords, finding!).says).toContain('F1, F2, F3, F4, F5 and 7 more')
  })

  test('the page of rules has one line a rule, with severity and source', () => {
    const page = rulesPage(findingWords)
    for (const rule of rules)
      expect(page.split('\n').filter((line) => line.startsWith(`| \`${rule.id}\` |`))).toHaveLength(1)
    expect(page).toContain(`${rules.length} rules.`)
  })
})
