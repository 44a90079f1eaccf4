/** Which suspects are planned for, how they are told, and what they are believed to be worth before any answer. */
import { describe, expect, it } from 'vitest'
import type { Finding } from '../../../src/core/audit/finding.ts'
import { compile } from '../../../src/core/bench/build.ts'
import { type Alive, aliveOf } from '../../../src/core/infer/alive.ts'
import type { PlannedCheck } from '../../../src/core/infer/foresee.ts'
import { HEALTHY, type Hypothesis, hypotheses, pairOf } from '../../../src/core/infer/hypothesis.ts'
import { suspectsOf } from '../../../src/core/infer/suspects.ts'
import { build } from '../../support/build.ts'

const suspect = (id: string, change: Partial<Hypothesis> = {}): Hypothesis => ({
  id,
  kind: 'single',
  faults: [{ at: id, mode: 'loose' }],
  families: ['connection'],
  plants: [],
  intermittent: false,
  prior: 0.1,
  ...change,
})
const none = suspect('none-of-these', { kind: 'none' })

describe('suspects in question', () => {
  const alive = (all: readonly Hypothesis[], belief: readonly number[]) =>
    aliveOf({ hypotheses: all, belief: Float64Array.from(belief), columns: [], atOdds: [], conflict: false })
  const ids = (list: readonly Alive[]): string[] => list.map(({ h }) => h.id)

  it('come by belief, of equals by name, and what is left of the belief is "none of these"', () => {
    const list = alive([none, suspect('c'), suspect('a'), suspect('b')], [0.4, 0.2, 0.2, 0.2])
    expect(ids(list)).toEqual(['a', 'b', 'c', 'none-of-these'])
    expect(list.at(-1)?.p).toBeCloseTo(0.4, 12)
  })

  it('end once more than 99.5 % are in, and the last of them is in whole', () => {
    const list = alive([suspect('a'), suspect('b'), suspect('c'), none], [0.99, 0.006, 0.003, 0.001])
    expect(ids(list)).toEqual(['a', 'b', 'none-of-these'])
    expect(list.at(-1)?.p).toBeCloseTo(0.004, 12)
    expect(ids(alive([suspect('a'), suspect('b'), none], [0.995, 0.005, 0]))).toEqual([
      'a',
      'b',
      'none-of-these',
    ])
  })

  it('leave "none of these" a share where nothing is left for it', () => {
    const list = alive([suspect('a'), none], [1, 0])
    expect(list.map(({ p }) => p > 0)).toEqual([true, true])
    expect(list.at(-1)?.p).toBeLessThan(1e-5)
  })

  it('are those with at least three thousandths of what the likeliest has', () => {
    const list = alive([suspect('a'), suspect('b'), suspect('c'), none], [0.8, 0.0025, 0.0023, 0.1952])
    expect(ids(list)).toEqual(['a', 'b', 'none-of-these'])
    expect(list.at(-1)?.p).toBeCloseTo(0.1975, 12)
  })

  it('are 24 at the most', () => {
    const many = Array.from({ length: 50 }, (_, i) => suspect(`s${i}`))
    const list = alive([...many, none], [...many.map(() => 0.02), 0])
    expect(list).toHaveLength(24 + 1)
    expect(list.at(-1)?.p).toBeCloseTo(1 - 24 * 0.02, 9)
  })
})

describe('suspects as they are told', () => {
  /** A check with the chance of its first answer by suspect. */
  const check = (...first: readonly number[]): PlannedCheck =>
    ({ broken: first.map((p) => Float64Array.of(p, 1 - p)) }) as unknown as PlannedCheck
  const list = (...p: readonly number[]): Alive[] => p.map((share, i) => ({ h: suspect(`s${i}`), p: share }))
  const told = (alive: readonly Alive[], checks: readonly PlannedCheck[], most?: number) =>
    suspectsOf(alive, checks, most).map((s) => [
      s.faults[0]?.at,
      Math.round(s.p * 1000) / 1000,
      s.alike.length,
    ])

  it('are one where every check would be answered alike, and their shares add up', () => {
    expect(told(list(0.4, 0.35, 0.25), [check(0.9, 0.2, 0.2), check(0.5, 0.7, 0.7)])).toEqual([
      ['s1', 0.6, 1],
      ['s0', 0.4, 0],
    ])
  })

  it('are apart where a single check would tell, were it by a hundred-thousandth', () => {
    expect(told(list(0.6, 0.4), [check(0.9, 0.9), check(0.5, 0.50001)])).toHaveLength(2)
    expect(told(list(0.6, 0.4), [check(0.9, 0.9), check(0.5, 0.5000001)])).toHaveLength(1)
  })

  it('never hold "none of these" together with a cause', () => {
    const alive = [{ h: none, p: 0.5 }, ...list(0.3), { h: { ...none, id: 'other' }, p: 0.2 }]
    expect(told(alive, [check(0.5, 0.5, 0.5)])).toHaveLength(3)
  })

  it('leave out what is hardly believed, and are so many at the most', () => {
    expect(told(list(0.9, 0.002, 0.0019), [check(0.1, 0.2, 0.3)])).toHaveLength(2)
    const ten = Array.from({ length: 10 }, (_, i) => 0.05 + i / 1000)
    const apart = check(...ten.map((_, i) => i / 10))
    expect(told(list(...ten), [apart])).toHaveLength(8)
    expect(told(list(...ten), [apart], 3).map(([at]) => at)).toEqual(['s9', 's8', 's7'])
  })
})

describe('two faults at once', () => {
  it('are half as likely as by chance alone, and come and go where one of them does', () => {
    const pair = pairOf(suspect('a', { prior: 0.2 }), suspect('b', { prior: 0.05, intermittent: true }))
    expect(pair).toMatchObject({ id: 'a + b', kind: 'pair', intermittent: true })
    expect(pair?.prior).toBeCloseTo(0.5 * 0.2 * 0.05, 12)
    expect(pairOf(suspect('a'), suspect('b'))?.intermittent).toBe(false)
    expect(pair?.faults.map((f) => f.at)).toEqual(['a', 'b'])
    expect(pair?.families).toEqual(['connection', 'connection'])
  })

  it('are no pair where both are of one kind on the same thing', () => {
    const on = (at: string, family: 'lead' | 'connection') =>
      suspect(`${at} ${family}`, { faults: [{ at, mode: 'x' }], families: [family] })
    expect(pairOf(on('P', 'lead'), on('P', 'lead'))).toBeUndefined()
    expect(pairOf(on('P', 'lead'), on('P', 'connection'))).toBeDefined()
    expect(pairOf(on('P', 'lead'), on('Q', 'lead'))).toBeDefined()
  })
})

describe('what is believed before any answer', () => {
  const made = compile(build().header('SYS1').plainFan('F1..F2').lead('F1.motor', 'board.SYS1').plan())
  const finding = (severity: Finding['severity'], ...refs: string[]): Finding => ({
    rule: 'r',
    severity,
    at: [],
    refs,
    source: 's',
    facts: {},
    assumed: [],
  })
  const priors = (findings: readonly Finding[]) =>
    new Map(hypotheses(made, () => true, findings).map((h) => [h.id, h.prior]))
  const ratio = (a: ReadonlyMap<string, number>, id: string): number =>
    (a.get(id) ?? 0) / (a.get('F1:seized') ?? 1)

  it('sums to 1, with a share for the plan itself and for what is not known', () => {
    const all = priors([])
    expect([...all.values()].reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12)
    expect([all.get('as-planned'), all.get('none-of-these')]).toEqual([0.04, 0.02])
  })

  it('is raised for what the audit named, by the worst that it found there', () => {
    const plain = ratio(priors([]), 'F1.motor:open-TACH')
    const times = (...findings: Finding[]): number => ratio(priors(findings), 'F1.motor:open-TACH') / plain
    expect(times(finding('will-not-work', 'F1.motor'))).toBeCloseTo(5, 9)
    expect(times(finding('may-not-work', 'F1.motor'), finding('will-damage', 'F1.motor'))).toBeCloseTo(4, 9)
    expect(times(finding('will-damage', 'F1.motor'), finding('untidy', 'F1.motor'))).toBeCloseTo(4, 9)
    expect(times(finding('untidy', 'F1.motor'), finding('unknown', 'F1.motor'))).toBeCloseTo(1, 9)
    expect(times(finding('will-not-work', 'board.SYS1'))).toBeCloseTo(1, 9)
  })

  it('is highest for the plan where that cannot work, as a load; else nothing may be wrong at all', () => {
    const own = (of: typeof made) => hypotheses(of, () => true, []).slice(-2)
    const [plan, unknown] = own(made)
    expect(plan).toMatchObject({ id: 'as-planned', faults: [{ mode: 'nothing-wrong' }], families: ['none'] })
    expect(unknown).toMatchObject({ id: 'none-of-these', families: ['none'] })
    const loaded = compile(
      build()
        .header('SYS1', { amps: 0.2, drive: 'pwm' })
        .plainFan('F1')
        .lead('F1.motor', 'board.SYS1')
        .plan(),
    )
    const [over] = own(loaded)
    expect(over).toMatchObject({ faults: [{ at: 'board.SYS1', mode: 'overloaded' }], families: ['load'] })
    for (const h of hypotheses(loaded, () => true, [])) expect(h.prior).toBeLessThanOrEqual(over?.prior ?? 0)
    // Neither does anything to the build, nor comes and goes.
    for (const h of [plan, unknown, over, HEALTHY])
      expect(h).toMatchObject({ plants: [], intermittent: false })
  })

  it('is of what is near only', () => {
    const ids = hypotheses(made, ({ at }) => at === 'F1', []).map((h) => h.faults[0]?.at)
    expect(new Set(ids)).toEqual(new Set(['F1', 'build']))
  })
})
