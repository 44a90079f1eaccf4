/**
 * The chooser on thirty random problems whose exact optima were worked out by another program, and on problems of our
 * own drawing that it was not tuned on, solved by the plain way in `optimum.ts`. Every outcome is followed.
 */
import { describe, expect, it } from 'vitest'
import { problemSchema, readProblem } from '../../../../src/cli/commands/engine-problem.ts'
import { chooseStep } from '../../../../src/core/infer/choose/choose.ts'
import held from '../../../fixtures/inference/held-out.json' with { type: 'json' }
import sequencing from '../../../fixtures/inference/sequencing.json' with { type: 'json' }
import { drawProblem, type Shape } from './draw-problem.ts'
import { follow } from './follow.ts'
import { optimum, optimumWithoutNoise, stateCount } from './optimum.ts'

interface Ratio {
  readonly toOptimum: number
  readonly toManual: number
  readonly toFixed: number
}

const ratios = (noiseFree: boolean): Ratio[] =>
  sequencing.problems
    .filter((p) => p.noise_free === noiseFree)
    .map((written) => {
      const { problem, startMode } = readProblem(problemSchema.parse(written))
      const { minutes } = follow(problem, startMode, (p, standing) => chooseStep(p, standing).best)
      return {
        toOptimum: minutes / written.optimum.verified_fix,
        toManual: minutes / written.baselines.manual_checklist,
        toFixed: minutes / written.baselines.static_checklist.cost,
      }
    })

const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length

describe.each([
  { kind: 'without wrong answers', noiseFree: true, most: 1.001, worst: 1.005, manual: 0.19, fixed: 0.035 },
  { kind: 'with wrong answers', noiseFree: false, most: 1.005, worst: 1.05, manual: 0.38, fixed: 0.055 },
])('on published problems $kind', ({ noiseFree, most, worst, manual, fixed }) => {
  const all = ratios(noiseFree)

  it('the minutes are near the exact optimum, on average and at worst', () => {
    const list = all.map((r) => r.toOptimum)
    expect(list).toHaveLength(15)
    // Below the optimum would mean that a rule of the game was read differently.
    expect(Math.min(...list)).toBeGreaterThan(1 - 1e-6)
    expect(mean(list)).toBeLessThanOrEqual(most)
    expect(Math.max(...list)).toBeLessThanOrEqual(worst)
  })

  it('the minutes are well under a manual list, and under the best fixed list made for the very problem', () => {
    expect(1 - mean(all.map((r) => r.toManual))).toBeGreaterThanOrEqual(manual)
    expect(1 - mean(all.map((r) => r.toFixed))).toBeGreaterThanOrEqual(fixed)
  })
})

describe('on problems that were held out', () => {
  const some = held.filter((_, i) => i % 6 === 0)

  it('the minutes are near the optimum too', () => {
    const list = some.map((h) => {
      const { problem } = drawProblem(h.seed, h.shape as Shape, h.noise_free)
      return follow(problem, 'on', (p, standing) => chooseStep(p, standing).best).minutes / h.optimum
    })
    expect(list).toHaveLength(18)
    expect(Math.min(...list)).toBeGreaterThan(1 - 1e-6)
    expect(mean(list)).toBeLessThanOrEqual(1.001)
    expect(Math.max(...list)).toBeLessThanOrEqual(1.005)
  })
})

describe('the plain way of solving', () => {
  it('agrees with the published optima of the problems it can hold', () => {
    let solved = 0
    for (const written of sequencing.problems) {
      const { problem, startMode } = readProblem(problemSchema.parse(written))
      const noisy = !written.noise_free
      if (noisy && stateCount(problem) > 200_000) continue
      const exact = noisy ? optimum(problem, startMode) : optimumWithoutNoise(problem, startMode)
      expect(exact).toBeCloseTo(written.optimum.verified_fix, 6)
      solved++
    }
    expect(solved).toBeGreaterThan(17)
  })

  it('agrees with itself where both ways can be taken', () => {
    const { problem } = drawProblem(5102, 'trap', true)
    expect(optimum(problem, 'on')).toBeCloseTo(optimumWithoutNoise(problem, 'on'), 9)
  })
})
