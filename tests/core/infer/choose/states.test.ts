import { describe, expect, it } from 'vitest'
import { boundsFor } from '../../../../src/core/infer/choose/bounds.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import { statesOf } from '../../../../src/core/infer/choose/states.ts'
import { handProblem, startOf } from './hand-problem.ts'

const problem = handProblem({
  priors: [0.5, 0.3, 0.2],
  repairs: [0, 1, 2].map((s) => ({ minutes: 1 + s, cures: [s] })),
})
const reduced = reduce(problem, startOf(problem))
const fresh = () => statesOf(reduced, boundsFor(reduced), (_weights, least, most) => (least + most) / 2)
const none = Int32Array.of(0)

describe('states of the search', () => {
  it('are one where the belief is the same, whatever its scale', () => {
    const states = fresh()
    const one = states.reach(Float64Array.of(0.5, 0.25, 0.25), 1, 0, none)
    const two = states.reach(Float64Array.of(0.2, 0.1, 0.1), 0.4, 0, none)
    expect(two).toBe(one)
    expect(states.count()).toBe(1)
    expect([...one.weight]).toEqual([0.5, 0.25, 0.25])
  })

  it('differ by belief, by power state and by what was asked', () => {
    const states = fresh()
    const weight = Float64Array.of(0.5, 0.25, 0.25)
    const all = [
      states.reach(weight, 1, 0, none),
      states.reach(weight, 1, 1, none),
      states.reach(weight, 1, 0, Int32Array.of(1)),
      states.reach(Float64Array.of(0.25, 0.5, 0.25), 1, 0, none),
      states.reach(Float64Array.of(0.5, 0.25 + 1e-10, 0.25 - 1e-10), 1, 0, none),
    ]
    expect(new Set(all).size).toBe(5)
    expect(states.count()).toBe(5)
  })

  it('stay apart, and are found again, where their hashes happen to agree', () => {
    // With power as for the proof, 1 in the first word times the multiplier of the hash is undone by the second word.
    const states = fresh()
    const weight = Float64Array.of(0.5, 0.25, 0.25)
    const one = states.reach(weight, 1, 0, Int32Array.of(0, 0))
    const two = states.reach(weight, 1, 0, Int32Array.of(1, 0x01000193))
    expect(two).not.toBe(one)
    expect(states.reach(weight, 1, 0, Int32Array.of(0, 0))).toBe(one)
    expect(states.reach(weight, 1, 0, Int32Array.of(1, 0x01000193))).toBe(two)
  })

  it('drop a class that is as good as ruled out', () => {
    const states = fresh()
    const state = states.reach(Float64Array.of(1, 9e-11, 2e-10), 1, 0, none)
    expect([...state.weight]).toEqual([1, 0, 2e-10])
  })

  it('keep their own copy of belief and of what was asked', () => {
    const states = fresh()
    const weight = Float64Array.of(1, 0, 0)
    const asked = Int32Array.of(0)
    const state = states.reach(weight, 1, 0, asked)
    weight[0] = 0.1
    asked[0] = 7
    expect([...state.weight]).toEqual([1, 0, 0])
    expect([...state.asked]).toEqual([0])
  })

  it('begin with the value of being told, of repairs only, and the guess between', () => {
    const state = fresh().reach(Float64Array.of(0.5, 0.3, 0.2), 1, 0, none)
    // Told: .5 · 1 + .3 · 2 + .2 · 3; in order: 1 + .5 · 2 + .2 · 3.
    expect(state.least).toBeCloseTo(1.7, 12)
    expect(state.most).toBeCloseTo(2.6, 12)
    expect(state.guess).toBeCloseTo(2.15, 12)
    expect(state.actions).toBeUndefined()
  })
})
