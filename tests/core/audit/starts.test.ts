/** Starts over what a header gives, with and without protection; amps worked by hand. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { findingWords } from '../../../src/wording/en/findings.ts'
import { findingText } from '../../../src/wording/findings.ts'
import type { Build } from '../../support/build.ts'
import { motor, onSplitter } from './rule-case.ts'

const found = (made: Build, rule: string) => audit(made.plan()).filter((f) => f.rule === rule)

describe('starts on a header of 1 A, which gives 2.2/1.5 of that for a second, 1.47 A', () => {
  const starting = (start: number, guarded: boolean): Build =>
    onSplitter(3, { amps: 1, protected: guarded }, motor({ amps: 0.25, start_amps: start }))

  test.each([
    // 2.4 A are far over 1.47 A (and over 1.25 times that, 1.83 A); 1.65 A are not; 1.2 A are under it.
    [0.8, false, 'will-damage'],
    [0.8, true, 'may-not-work'],
    [0.55, false, 'may-not-work'],
    [0.4, false, 'untidy'],
  ])('three of %s A, protected %s: %s', (start, guarded, severity) => {
    expect(found(starting(start, guarded), 'header-start-surge').map((f) => f.severity)).toEqual([severity])
  })

  test('says that nothing protects it, only where that is so', () => {
    const says = (guarded: boolean) =>
      found(starting(0.8, guarded), 'header-start-surge').map((f) => findingText(findingWords, f).says)[0]
    expect(says(false)).toContain('Nothing protects it')
    expect(says(true)).not.toContain('Nothing protects it')
  })
})

describe('the remedy of a steady overload', () => {
  const todo = (start: number) =>
    found(onSplitter(5, { amps: 1 }, motor({ amps: 0.22, start_amps: start })), 'header-over-current').map(
      (f) => findingText(findingWords, f).todo,
    )[0]

  test('keeps the start as well: 1.1 A on 1 A, and 2.25 A on 1.47 A', () => {
    expect(todo(0.45)).toContain('0.1 A running and 0.78 A at the start')
  })

  test('names the running amps alone where the start is kept', () => {
    expect(todo(0.25)).toContain('worth 0.1 A to')
  })
})
