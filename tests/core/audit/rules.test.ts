/** Each rule on a build that breaks it and on a nearly equal one that does not. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { allRules } from '../../../src/core/audit/rules.ts'
import { ruleCases as cases } from './all-cases.ts'

describe('a broken rule is found, and only there', () => {
  test('each rule has a pair of builds, and there are more than sixty', () => {
    expect(cases.map((c) => c.rule).sort()).toEqual(allRules.map((r) => r.id).sort())
    expect(allRules.length).toBeGreaterThanOrEqual(60)
  })

  test.each(cases.map((c) => [c.rule, c.says, c] as const))('%s: %s', (id, _says, { make }) => {
    const bad = make(true).plan()
    const found = audit(bad).filter((f) => f.rule === id)
    expect(found.length, 'findings on the build that breaks it').toBeGreaterThan(0)
    for (const finding of found) {
      expect(finding.at.length).toBeGreaterThan(0)
      expect(finding.at[0]?.line).toBeGreaterThan(1)
      expect(finding.refs.length).toBeGreaterThan(0)
    }
    expect(audit(make(false).plan()).filter((f) => f.rule === id)).toEqual([])
  })
})
