/** Which repairs and checks are offered to whom, and how the numbers that decide between them come about. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { HANDS_IN } from '../../../src/core/checks/step.ts'
import { type Assessment, knowledgeOf } from '../../../src/core/infer/assess.ts'
import { informationGainBits } from '../../../src/core/infer/belief.ts'
import { decide } from '../../../src/core/infer/decide.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import { hypotheses, pairOf } from '../../../src/core/infer/hypothesis.ts'
import { checksOffered, repairsOffered } from '../../../src/core/infer/offered.ts'
import type { Problem, Standing } from '../../../src/core/infer/problem.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const machine = compile(
  build()
    .supply('SA')
    .header('SYS1')
    .header('SYS2')
    .usbHeader('U1')
    .fan('F1')
    .lightHub('H1', ['F1'])
    .lead('F1.motor', 'board.SYS1')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile: [8], colours: 'GRB' })
    .plan(),
)
const known = knowledgeOf(machine, [])
const all = hypotheses(machine, () => true, [])
const named = (id: string) => {
  const found = all.find((h) => h.id === id)
  if (!found) throw new Error(`no suspect ${id}`)
  return found
}
const alive = (...ids: string[]) => ids.map((id, i) => ({ h: named(id), p: (ids.length - i) / 10 }))
const dossier = (change: Partial<Dossier> = {}): Dossier => ({
  evidence: [],
  history: [],
  inForce: [],
  power: 'on',
  scope: [{ what: 'spins', at: 'F1' }],
  closed: new Set(),
  toolsMissing: new Set(),
  ...change,
})

describe('repairs', () => {
  const ids = (d: Dossier, ...suspects: string[]): string[] =>
    repairsOffered(known, d, alive(...suspects)).map((r) => r.id)
  const of = (id: string): string[] =>
    named(id)
      .faults.flatMap((f) => repairsFor(machine, f))
      .map((r) => r.id)

  it('are those of the suspects, the likeliest first, each once, without those that were closed', () => {
    const both = ['F1.motor:unplugged', 'F1.motor:loose'] as const
    expect(ids(dossier(), ...both)).toEqual([...new Set(both.flatMap(of))])
    const [first] = of('F1.motor:unplugged')
    expect(ids(dossier({ closed: new Set([first ?? '']) }), ...both)).not.toContain(first)
    expect(ids(dossier())).toEqual([])
  })

  it('need no hands in the case where nobody can switch off', () => {
    const shut = dossier({ toolsMissing: new Set([HANDS_IN]) })
    expect(ids(shut, 'F1.motor:unplugged', 'H1:hung')).toEqual([])
    expect(ids(shut, 'channels/H1/colours:wrong')).toEqual(of('channels/H1/colours:wrong'))
  })

  it('hold a look with nothing changed once something was done, twice after the same', () => {
    const again = (d: Dossier) => ids(d).filter((id) => id.startsWith('mend nothing'))
    const history = ['power off', 'reseat F1.motor', 'power on'].map(editOf)
    expect(again(dossier())).toEqual([])
    expect(again(dossier({ history }))).toEqual(['mend nothing, 1.1'])
    expect(again(dossier({ history, closed: new Set(['mend nothing, 1.1']) }))).toEqual(['mend nothing, 1.2'])
    expect(again(dossier({ history, closed: new Set(['mend nothing, 1.1', 'mend nothing, 1.2']) }))).toEqual(
      [],
    )
    // Not while something that was only tried is still in force.
    expect(again(dossier({ history, inForce: history.slice(1, 2) }))).toEqual([])
    expect(repairsOffered(known, dossier({ history }), [])).toMatchObject([
      { edits: [], hands: 'out', minutes: 1 },
    ])
  })

  it('hold both of a pair in one go, beside each by itself', () => {
    const pair = pairOf(named('F1.motor:unplugged'), named('H1.usb:unplugged'))
    if (!pair) throw new Error('no pair')
    const offered = repairsOffered(known, dossier(), [{ h: pair, p: 1 }])
    const edits = offered.map((r) => r.edits.map((e) => (e.do === 'reseat' ? e.plug : e.do)).join())
    expect(edits).toContain('F1.motor,H1.usb')
    expect(edits).toContain('F1.motor')
    expect(edits).toContain('H1.usb')
    const single = repairsOffered(known, dossier(), alive('F1.motor:unplugged', 'H1.usb:unplugged'))
    expect(single.every((r) => r.edits.length < 2 || r.edits.some((e) => e.do === 'power'))).toBe(true)
  })

  it('start the host program first where they set what only it can set', () => {
    const wrong = 'channels/H1/colours:wrong'
    const plain = repairsOffered(known, dossier(), alive(wrong))[0]
    const silent = dossier({
      history: [editOf('set host/program = absent')],
      closed: new Set(['mend nothing, 1.1', 'mend nothing, 1.2']),
    })
    const late = repairsOffered(known, silent, alive(wrong))[0]
    expect(plain?.edits.map((e) => e.do === 'set' && e.setting)).toEqual(['channels/H1/colours'])
    expect(late?.edits.map((e) => e.do === 'set' && e.setting)).toEqual([
      'host/program',
      'channels/H1/colours',
    ])
    expect((late?.minutes ?? 0) - (plain?.minutes ?? 0)).toBe(8)
    // A fan's plug needs no program.
    expect(repairsOffered(known, silent, alive('F1.motor:unplugged'))[0]?.edits[0]?.do).toBe('reseat')
  })
})

describe('checks', () => {
  const suspects = alive(
    'F1.motor:unplugged',
    'F1:motor-dead',
    'board.SYS1:dead',
    'channels/H1/colours:wrong',
    'none-of-these',
  )
  const offered = (d: Dossier) => checksOffered(known, d, suspects)

  it('tell something, come by what they tell a minute, each once and no more than forty', () => {
    const checks = offered(dossier())
    const p = Float64Array.from(suspects, (s) => s.p)
    const rate = checks.map((c) => informationGainBits(p, c.table, c.answers.length) / c.check.minutes)
    expect(rate.length).toBeGreaterThan(3)
    expect(rate).toEqual([...rate].sort((a, b) => b - a))
    for (const [i, c] of checks.entries())
      expect((rate[i] ?? 0) * c.check.minutes, c.check.id).toBeGreaterThan(0.004)
    expect(new Set(checks.map((c) => c.check.id)).size).toBe(checks.length)
    expect(checks.length).toBeLessThanOrEqual(40)
    expect(checks.filter((c) => c.check.edits.length > 0).length).toBeLessThanOrEqual(6)
    expect(checks.some((c) => c.check.edits.length > 0)).toBe(true)
  })

  it('have odds for every suspect that sum to 1', () => {
    for (const { check, table } of offered(dossier())) {
      expect(table, check.id).toHaveLength(suspects.length)
      for (const row of table)
        expect(
          row.reduce((sum, x) => sum + x, 0),
          check.id,
        ).toBeCloseTo(1, 9)
    }
  })

  it('leave out what was closed, what needs hands that may not go in, and a tool that is not there', () => {
    const checks = offered(dossier())
    const first = checks[0]?.check.id ?? ''
    expect(offered(dossier({ closed: new Set([first]) })).map((c) => c.check.id)).not.toContain(first)
    const outside = offered(dossier({ toolsMissing: new Set([HANDS_IN]) }))
    expect(outside.length).toBeGreaterThan(0)
    expect(outside.every(({ check }) => !check.fit && check.edits.length === 0 && check.hands !== 'in')).toBe(
      true,
    )
    const tool = checks.flatMap((c) => c.check.tools)[0]
    expect(tool).toBeDefined()
    const without = offered(dossier({ toolsMissing: new Set([tool ?? '']) }))
    expect(without.length).toBeLessThan(checks.length)
    expect(without.every((c) => !c.check.tools.some((t) => t === tool))).toBe(true)
  })
})

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
    const outlook = checksOffered(known, dossier(), belief)
    const trial = outlook.find((c) => c.check.edits.length > 0)?.check
    const look = outlook.find((c) => c.check.edits.length === 0 && !c.check.fit)?.check
    expect(on.get(trial?.id ?? '')).toBeCloseTo((trial?.minutes ?? 0) + 2 * switchMinutes, 9)
    expect(off.get(trial?.id ?? '')).toBeCloseTo(trial?.minutes ?? 0, 9)
    expect(on.get(look?.id ?? '')).toBeCloseTo(look?.minutes ?? 0, 9)
  })
})
