/** What the numbers are that decide between checks and repairs, and what becomes of the choice. */
import { describe, expect, it } from 'vitest'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import type { Assessment } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import { checksOffered } from '../../../src/core/infer/offered.ts'
import { whole } from '../../../src/core/infer/parts.ts'
import type { Problem, Standing } from '../../../src/core/infer/problem.ts'
import { editOf } from '../../support/bench-look.ts'
import { decide } from '../../support/decide.ts'
import { alive, dossier, known, machine } from './lit-fan.ts'

describe('what is put before the choice', () => {
  const belief = alive('F1.motor:unplugged', 'F1:motor-dead', 'none-of-these')
  const assessment: Assessment = {
    hypotheses: belief.map((s) => s.h),
    belief: Float64Array.of(0.5, 0.3, 0.2),
    columns: [],
    atOdds: [],
    conflict: false,
  }
  const seen = (d: Dossier, of = assessment): { problem: Problem; standing: Standing } => {
    let found: { problem: Problem; standing: Standing } | undefined
    const choose: NonNullable<typeof known.choose> = (problem, standing) => {
      found = { problem, standing }
      return { best: { do: 'escalate', minutes: 7 }, others: [] }
    }
    const outlook = decide({ ...known, choose }, d, of)
    expect([outlook.step.kind, outlook.expectedMinutes, outlook.others]).toEqual(['hand-over', 7, []])
    if (!found) throw new Error('nothing was chosen')
    return found
  }

  it('is belief that sums to 1, all checks and only repairs that cure somebody', () => {
    const { problem, standing } = seen(dossier())
    expect([...standing.belief].reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12)
    expect(standing.belief[0]).toBeCloseTo(0.5, 9)
    const sure = seen(dossier(), { ...assessment, belief: Float64Array.of(0.7, 0.3, 0) }).standing
    expect([...sure.belief].reduce((sum, x) => sum + x, 0)).toBeCloseTo(1, 12)
    expect(standing.checksLeft).toEqual(problem.checks.map((_, i) => i))
    expect(standing.repairsLeft).toEqual(problem.repairs.map((_, i) => i))
    expect(problem.repairs.length).toBeGreaterThan(1)
    for (const r of problem.repairs)
      expect(
        [...r.fixes].some((x) => x === 1),
        r.id,
      ).toBe(true)
    const reseat = repairsFor(machine, { at: 'F1.motor', mode: 'unplugged' })[0]
    const same = problem.repairs.find((r) => r.id === reseat?.id)
    // The look afterwards is a minute of it.
    expect(same).toMatchObject({ minutes: (reseat?.minutes ?? 0) + 1, mode: reseat?.power })
    expect([...(same?.fixes ?? [])]).toEqual([1, 0, 0])
    const unlisted = dossier({ scope: [{ what: 'listed', at: 'H1' }], history: [editOf('unplug H1.usb')] })
    expect(seen(unlisted).problem.repairs).toEqual([])
  })

  it('is answered by number: the step and the others are the checks and repairs that were put', () => {
    const { problem } = seen(dossier())
    const choose: NonNullable<typeof known.choose> = () => ({
      best: { do: 'repair', index: 1, minutes: 3 },
      others: [
        { do: 'check', index: 2, minutes: 4 },
        { do: 'escalate', minutes: 9 },
      ],
    })
    const {
      step,
      expectedMinutes,
      others,
      checks,
      alive: suspects,
    } = decide({ ...known, choose }, dossier(), assessment)
    expect(step).toMatchObject({ kind: 'repair', repair: { id: problem.repairs[1]?.id } })
    expect(expectedMinutes).toBe(3)
    expect(others).toMatchObject([
      { step: { kind: 'check', check: { id: problem.checks[2]?.id } }, expectedMinutes: 4 },
      { step: { kind: 'hand-over' }, expectedMinutes: 9 },
    ])
    expect(problem.checks).toMatchObject(
      checks.map(({ check, answers }) => ({ id: check.id, outcomes: answers.map((a) => a.id) })),
    )
    expect(problem.suspects).toEqual(suspects.map(({ h, p }) => ({ id: h.id, prior: p })))
    expect(problem.verifyMode).toBe('on')
  })

  it('counts both switches for a trial with hands in while power is on, none while it is off', () => {
    const minutes = (d: Dossier) => new Map(seen(d).problem.checks.map((c) => [c.id, c.minutes]))
    const on = minutes(dossier())
    const off = minutes(dossier({ power: 'off' }))
    const { switchMinutes } = seen(dossier()).problem
    const outlook = whole(checksOffered(known, dossier(), belief))
    const trial = outlook.find((c) => c.check.edits.length > 0)?.check
    const look = outlook.find((c) => c.check.edits.length === 0 && !c.check.fit)?.check
    expect(on.get(trial?.id ?? '')).toBeCloseTo((trial?.minutes ?? 0) + 2 * switchMinutes, 9)
    expect(off.get(trial?.id ?? '')).toBeCloseTo(trial?.minutes ?? 0, 9)
    expect(on.get(look?.id ?? '')).toBeCloseTo(look?.minutes ?? 0, 9)
  })
})
