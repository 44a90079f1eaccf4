/** Who is not held against an answer could make no difference: the belief is held against the one that leaves nobody out. */
import { describe, expect, it } from 'vitest'
import { posterior } from '../../../src/core/infer/belief.ts'
import { columnsOf, LEFT_OUT, type Odds } from '../../../src/core/infer/columns.ts'
import { whole } from '../../../src/core/infer/parts.ts'
import { seeded } from '../../bench/accuracy.ts'

/** @param table `table[answer][suspect]` */
function counted(table: readonly (readonly number[])[]): Odds & { readonly asked: () => number } {
  let asked = 0
  return {
    of: (answer, suspect) => {
      asked++
      return table[answer]?.[suspect] ?? expect.fail()
    },
    worked: () => asked,
    asked: () => asked,
  }
}

const drawn = (seed: number, suspects: number, answers: number) => {
  const chance = seeded(seed)
  const prior = Array.from({ length: suspects }, () => chance() / suspects)
  // As answers are: right for the first suspect and a few others, a slip for the rest.
  const table = Array.from({ length: answers }, () =>
    prior.map((_, s) => (s === 0 || chance() < 0.1 ? 0.94 : 0.001 + 0.002 * chance())),
  )
  return { prior, table }
}

const held = (prior: readonly number[], table: readonly (readonly number[])[], leftOut?: number) => {
  const odds = counted(table)
  const columns = whole(columnsOf(prior, table.length, odds, leftOut))
  return { columns, belief: posterior(prior, columns), asked: odds.asked() }
}

describe('suspects that are out of the running', () => {
  it.each([1, 2, 3, 4, 5])('are left out, and no belief moves by more than they have (draw %d)', (seed) => {
    const { prior, table } = drawn(seed, 200, 12)
    const some = held(prior, table)
    const all = held(prior, table, 0)
    expect(all.asked).toBe(200 * 12)
    expect(some.asked).toBeLessThan(all.asked / 2)
    const moved = all.belief.reduce((sum, p, s) => sum + Math.abs(p - some.belief[s]!), 0)
    expect(moved).toBeLessThan(2 * LEFT_OUT)
    // What was not asked about stands as the most it can be.
    expect(some.columns.flatMap((c) => [...c]).filter((p) => p === 1).length).toBe(all.asked - some.asked)
  })

  it('are held against the answers after all where the likely ones explain the last of them no better', () => {
    const prior = [0.5, 0.5]
    const table = [
      [1, 1e-12],
      [1, 1],
      [1e-15, 1],
    ]
    const { belief, asked } = held(prior, table)
    expect(asked).toBe(6)
    expect(belief[1]).toBeCloseTo(1e-12 / (1e-12 + 1e-15), 12)
  })

  it('leave no belief out after a long history of small chances, whose product no number can hold', () => {
    const chance = seeded(7)
    const prior = Array.from({ length: 5 }, () => 0.2)
    const table = Array.from({ length: 400 }, () => prior.map(() => 0.01 + 0.0005 * chance()))
    const plain = posterior(prior, table)
    expect(Math.max(...plain) / Math.min(...plain)).toBeGreaterThan(1.1)
    const { belief } = held(prior, table)
    for (const [s, p] of plain.entries()) expect(belief[s]).toBeCloseTo(p, 8)
  })

  it('are held against all answers in parts of 80 that are new, and in one go where all are known', () => {
    const { prior, table } = drawn(3, 200, 12)
    const partsOf = (odds: Odds): number => [...columnsOf(prior, table.length, odds, 0)].length
    expect(partsOf(counted(table))).toBe((200 * 12) / 80)
    expect(partsOf({ ...counted(table), worked: () => 0 })).toBe(0)
  })

  it('that an answer rules out are asked no further', () => {
    const { asked, belief } = held(
      [0.5, 0.5],
      [
        [0, 1],
        [1, 0.5],
      ],
    )
    expect(asked).toBe(3)
    expect([...belief]).toEqual([0, 1])
  })
})
