/** How far the search goes follows from the size of the problem, and from whether answers may err. */
import { describe, expect, it } from 'vitest'
import { chooseStep } from '../../../../src/core/infer/choose/choose.ts'
import type { Problem } from '../../../../src/core/infer/problem.ts'
import { handProblem, startOf } from './hand-problem.ts'

describe('how much is searched', () => {
  /** Equal suspects with a repair each, and checks that single out one each. @param error how often an answer is wrong */
  const even = (suspects: number, checks: number, error = 0): Problem =>
    handProblem({
      priors: new Array(suspects).fill(1 / suspects),
      checks: Array.from({ length: checks }, (_, c) => ({
        minutes: 1 + c / 10,
        rows: Array.from({ length: suspects }, (_, s) => (s === c ? [1 - error, error] : [error, 1 - error])),
      })),
      repairs: Array.from({ length: suspects }, (_, s) => ({ minutes: 2 + s / 7, cures: [s] })),
    })
  const nodes = (problem: Problem): number => chooseStep(problem, startOf(problem)).nodes

  it('is more for a problem of up to seventeen classes and sixteen checks than for a larger one', () => {
    expect(nodes(even(17, 16))).toBeGreaterThan(3000)
    expect(nodes(even(18, 16))).toBeLessThan(2000)
    expect(nodes(even(17, 17))).toBeLessThan(2000)
  })

  it('is more for up to ten classes than for eleven where answers may err', () => {
    expect(nodes(even(10, 8, 0.05))).toBeGreaterThan(3000)
    expect(nodes(even(11, 8, 0.05))).toBeLessThan(2000)
  })
})
