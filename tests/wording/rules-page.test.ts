/** The page of rules is what the code says, and says all that is asked of it. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { allRules, families } from '../../src/core/audit/rules.ts'
import { findingWords } from '../../src/wording/en/findings.ts'
import { rulesPage } from '../../src/wording/rules-page.ts'

const page = readFileSync(new URL('../../docs/rules.md', import.meta.url), 'utf8')

describe('the page of rules', () => {
  test('is up to date; "npm run docs" writes it anew', () => {
    expect(page).toBe(rulesPage(findingWords))
  })

  test('has a row with limit and source for each rule, under its family', () => {
    for (const { family } of families) expect(page).toContain(`\n## ${findingWords.families[family]}\n`)
    const rows = page.split('\n').filter((line) => line.startsWith('| `'))
    expect(rows).toHaveLength(allRules.length)
    for (const row of rows) {
      const cells = row.split(/(?<!\\)\|/).slice(1, -1)
      expect(cells).toHaveLength(5)
      for (const cell of cells) expect(cell.trim().length, row).toBeGreaterThan(1)
    }
  })
})
