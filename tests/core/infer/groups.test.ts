import { describe, expect, it } from 'vitest'
import { problemSchema, readProblem } from '../../../src/cli/commands/engine-problem.ts'
import { groupsOf } from '../../../src/core/infer/groups.ts'
import type { Problem } from '../../../src/core/infer/problem.ts'
import sequencing from '../../fixtures/inference/sequencing.json' with { type: 'json' }

const rows = (...table: number[][]): Float64Array[] => table.map((r) => Float64Array.from(r))

const look: Problem['checks'][number] = {
  id: 'look',
  minutes: 1,
  mode: 'on',
  outcomes: ['dark', 'lit', 'flickers'],
  table: rows([0.5, 0.3, 0.2], [0.5, 0.3, 0.2], [0.5, 0.2, 0.3], [0.5, 0.3 + 1e-8, 0.2 - 1e-8]),
}
const reseat: Problem['repairs'][number] = {
  id: 'reseat',
  minutes: 1,
  mode: 'off',
  fixes: Uint8Array.of(1, 0, 1, 0),
}
const problem: Problem = {
  suspects: ['a', 'b', 'c', 'd'].map((id) => ({ id, prior: 0.25 })),
  checks: [look],
  repairs: [reseat],
  switchMinutes: 2,
  escalateMinutes: 30,
  verifyMode: 'on',
}

describe('suspects that nothing tells apart', () => {
  it('are one group where neither check nor repair is left', () => {
    expect(groupsOf(problem, { checksLeft: [], repairsLeft: [] }, [0, 1, 2, 3])).toEqual([[0, 1, 2, 3]])
  })

  it('are split by a repair that cures one and not the other', () => {
    expect(groupsOf(problem, { checksLeft: [], repairsLeft: [0] }, [0, 1, 2, 3])).toEqual([
      [0, 2],
      [1, 3],
    ])
  })

  it('are split by any outcome whose chance differs, were it by a hundred-millionth', () => {
    expect(groupsOf(problem, { checksLeft: [0], repairsLeft: [] }, [0, 1, 2, 3])).toEqual([[0, 1], [2], [3]])
  })

  it('come in the order in which they were given, and only those that were given', () => {
    expect(groupsOf(problem, { checksLeft: [0], repairsLeft: [] }, [3, 1, 0])).toEqual([[3], [1, 0]])
  })

  it('are told apart from one that differs by too little for a first glance, and still found after it', () => {
    expect(groupsOf(problem, { checksLeft: [0], repairsLeft: [] }, [0, 3, 1])).toEqual([[0, 1], [3]])
  })

  // The groups in the fixture were worked out by another program, from the checks alone.
  it.each(sequencing.problems.filter((p) => 'ambiguity_groups' in p && p.ambiguity_groups))(
    'are those of the published problem $id',
    (written) => {
      const { problem } = readProblem(problemSchema.parse(written))
      const groups = groupsOf(problem, { checksLeft: [...problem.checks.keys()], repairsLeft: [] }, [
        ...problem.suspects.keys(),
      ])
      const named = groups.map((g) => g.map((s) => problem.suspects[s]!.id).sort())
      const sorted = (list: readonly (readonly string[])[]): string[] =>
        list.map((g) => [...g].sort().join()).sort()
      expect(sorted(named)).toEqual(sorted(written.ambiguity_groups ?? []))
    },
  )
})
