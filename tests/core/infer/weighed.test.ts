/**
 * How belief is put together on a small build: who is asked about at all, how much less is thought of what shows
 * nothing of the symptom, and which answers are left over. Shares and odds worked out by hand from Bayes' rule.
 */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { type Assessment, assess, knowledgeOf } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { twoApart } from '../../support/small-builds.ts'

/** Two fans that share nothing. */
const machine = compile(twoApart())
const dossier = (...evidence: Evidence[]): Dossier => ({
  evidence,
  history: [],
  inForce: [],
  power: 'on',
  scope: [],
  closed: new Set(),
  toolsMissing: new Set(),
})
const weighed = (...evidence: Evidence[]): Assessment =>
  assess(knowledgeOf(machine, []), dossier(...evidence))

const SPINS = ['no', 'slow', 'full'] as const
/** Every fan, each marked as given or left unmarked. */
const map = (
  seq: number,
  marked: Readonly<Record<string, (typeof SPINS)[number]>>,
  error = 0.1,
): Evidence => ({
  kind: 'many',
  seq,
  id: 'fans',
  history: [],
  error,
  marks: ['F1', 'F2'].flatMap((at) =>
    SPINS.map((value) => ({ id: `${at}:${value}`, observe: { what: 'spins', at }, value })),
  ),
  chosen: Object.entries(marked).map(([at, value]) => `${at}:${value}`),
})
const look = (seq: number, what: 'seated' | 'spins', at: string, chosen: string, error = 0.1): Evidence => ({
  kind: 'one',
  seq,
  id: `look ${what} ${at}`,
  history: [],
  error,
  observe: [{ what, at }],
  answers: [
    ...(what === 'seated' ? ['yes', 'no', 'doubtful'] : ['normal', 'no']).map((id) => ({ id, means: [id] })),
    { id: 'other', means: [null] },
  ],
  chosen,
})
const told = (about: string, chosen: string): Evidence => ({
  kind: 'about',
  seq: 9,
  id: about,
  history: [],
  error: 0,
  about,
  chosen,
})

const places = (a: Assessment): ReadonlySet<string> =>
  new Set(
    a.hypotheses
      .filter((h) => h.kind === 'single')
      .flatMap((h) => h.faults.map((f) => f.at.split('.')[0] ?? '')),
  )
const column = (a: Assessment, e: number, id: string): number =>
  a.columns[e]?.[a.hypotheses.findIndex((h) => h.id === id)] ?? Number.NaN
const belief = (a: Assessment, id: string): number =>
  a.belief[a.hypotheses.findIndex((h) => h.id === id)] ?? Number.NaN
/** What a suspect was weighed with beside its prior and its likelihoods, up to the same factor for all. */
const weight = (a: Assessment, id: string): number => {
  const i = a.hypotheses.findIndex((h) => h.id === id)
  const prior = a.hypotheses[i]?.prior ?? Number.NaN
  return (a.belief[i] ?? 0) / a.columns.reduce((product, c) => product * (c[i] ?? 1), prior)
}

describe('who is suspect', () => {
  it('is all there is, while nothing was seen that is not as it should be', () => {
    for (const evidence of [
      [],
      [look(1, 'seated', 'F1.motor', 'yes')],
      [look(1, 'spins', 'F1', 'normal')],
      [look(1, 'spins', 'F1', 'other')],
      [map(1, {})],
      [told('worked', 'never')],
    ]) {
      const found = places(weighed(...evidence))
      expect([found.has('F1'), found.has('F2')], evidence[0]?.id).toEqual([true, true])
    }
  })

  it('is what bears on what was seen, by a single look or on a map', () => {
    for (const evidence of [
      look(1, 'seated', 'F1.motor', 'no'),
      look(1, 'spins', 'F1', 'no'),
      map(1, { F1: 'no' }),
      map(1, { F1: 'slow' }),
    ]) {
      const found = places(weighed(evidence))
      expect([found.has('F1'), found.has('F2')], evidence.id).toEqual([true, false])
    }
    expect(places(weighed(map(1, { F1: 'no' }), look(2, 'seated', 'F2.motor', 'no'))).has('F2')).toBe(true)
  })

  it('is all there is where what was seen fits nothing near it and something else explains it', () => {
    // F2 neither turns nor rests: none of the causes near F1 makes it, and it may be seized as well.
    const a = weighed(look(1, 'spins', 'F1', 'no', 1e-4), look(2, 'spins', 'F2', 'other', 1e-4))
    expect(places(a).has('F2')).toBe(true)
    expect(belief(a, 'none-of-these')).toBeLessThan(0.3)
  })

  it('stays near where nothing else explains it either', () => {
    // Nothing in the build makes a plug other than home, out or doubtful.
    const a = weighed(map(1, { F1: 'no' }, 1e-4), look(2, 'seated', 'F1.motor', 'other', 1e-4))
    expect(places(a).has('F2')).toBe(false)
    expect(belief(a, 'none-of-these')).toBeGreaterThan(0.3)
  })

  it('always has the plan itself and what is not known among it, each once', () => {
    const kinds = weighed(map(1, { F1: 'no' })).hypotheses.map((h) => h.kind)
    expect(kinds.filter((k) => k === 'as-planned' || k === 'none')).toHaveLength(2)
  })
})

describe('what shows nothing of what the person came with', () => {
  it('is thought of a fiftieth as much', () => {
    const a = weighed(map(1, { F1: 'no' }))
    const related = weight(a, 'F1:motor-dead')
    expect(weight(a, 'F1.motor:open-TACH') / related).toBeCloseTo(0.02, 9)
    expect(weight(a, 'F1.motor:unplugged') / related).toBeCloseTo(1, 9)
    expect(weight(a, 'as-planned') / related).toBeCloseTo(1, 9)
    expect(weight(a, 'none-of-these') / related).toBeCloseTo(1, 9)
  })

  it('counts as much as all else where no map was gone over', () => {
    const a = weighed(look(1, 'spins', 'F1', 'no'))
    expect(weight(a, 'F1.motor:open-TACH') / weight(a, 'F1:motor-dead')).toBeCloseTo(1, 9)
    expect(weight(a, 'as-planned') / weight(a, 'F1:motor-dead')).toBeCloseTo(1, 9)
  })

  it('is every single fault where nothing on the map was wrong', () => {
    const a = weighed(map(1, {}))
    expect(weight(a, 'F1:motor-dead') / weight(a, 'as-planned')).toBeCloseTo(0.02, 9)
    expect(weight(a, 'none-of-these') / weight(a, 'as-planned')).toBeCloseTo(1, 9)
    const more = weighed(map(1, {}), look(2, 'seated', 'F1.motor', 'yes'))
    expect(weight(more, 'F1:motor-dead') / weight(more, 'as-planned')).toBeCloseTo(0.02, 9)
    expect(a.belief.indexOf(Math.max(...a.belief))).toBe(a.hypotheses.findIndex((h) => h.id === 'as-planned'))
  })

  it('goes by the first map with something wrong on it', () => {
    const a = weighed(map(1, {}), map(2, { F1: 'no' }))
    expect(weight(a, 'F1.motor:open-TACH') / weight(a, 'F1:motor-dead')).toBeCloseTo(0.02, 9)
  })
})

describe('two faults', () => {
  it('are thought of where one leaves a fan on the map unexplained, each as related as it is alone', () => {
    const a = weighed(map(1, { F1: 'no', F2: 'no' }))
    const pair = a.hypotheses.find((h) => h.kind === 'pair' && h.faults.every((f) => f.mode === 'motor-dead'))
    expect(pair?.faults.map((f) => f.at)).toEqual(['F1', 'F2'])
    expect(weight(a, pair?.id ?? '') / weight(a, 'F1:motor-dead')).toBeCloseTo(1, 9)
    // Both marks right: 0.9 twice; one of them: 0.9, and a slip of three marks.
    expect(column(a, 0, pair?.id ?? '')).toBeCloseTo(0.9 * 0.9, 12)
    expect(column(a, 0, 'F1:motor-dead')).toBeCloseTo((0.9 * 0.1) / 3, 12)
    const related = (id: string) => weight(a, id) / weight(a, 'F1:motor-dead')
    for (const { id, of } of a.hypotheses)
      if (of) expect(related(id), id).toBeCloseTo(related(of[0].id) * related(of[1].id), 9)
    expect(related('F1.motor:open-TACH')).toBeCloseTo(0.02, 9)
    expect(a.hypotheses[a.belief.indexOf(Math.max(...a.belief))]?.kind).toBe('pair')
  })

  it('are not thought of where one explains all, nor come twice', () => {
    const kinds = (a: Assessment) => a.hypotheses.filter((h) => h.kind === 'pair').length
    expect(kinds(weighed(map(1, { F1: 'no' })))).toBe(0)
    expect(kinds(weighed(look(1, 'spins', 'F1', 'no')))).toBe(0)
    // Nor where the map was gone over carelessly, or what is told of the past does not fit.
    expect(kinds(weighed(map(1, { F1: 'no' }, 0.4)))).toBe(0)
    const past = [told('comes-and-goes', 'yes'), told('since', 'suddenly')]
    expect(kinds(weighed(map(1, { F1: 'no' }), ...past))).toBe(0)
    const a = weighed(map(1, { F1: 'no', F2: 'no' }))
    expect(kinds(a)).toBeGreaterThan(0)
    expect(new Set(a.hypotheses.map((h) => h.id)).size).toBe(a.hypotheses.length)
    // Two singles each, named in one order, whichever of them is the likelier.
    for (const { of } of a.hypotheses)
      if (of) expect([of[0].kind, of[1].kind, of[0].id < of[1].id]).toEqual(['single', 'single', true])
    // So many of the likeliest in pairs, no more.
    expect(kinds(a)).toBeLessThanOrEqual((26 * 25) / 2)
  })

  it('are thought of where one leaves a single look unexplained, whatever else was asked', () => {
    const still = ['F1', 'F2'].map((at, i) => look(i + 1, 'spins', at, 'no', 1e-3))
    const a = weighed(...still, told('worked', 'never'))
    expect(a.hypotheses[a.belief.indexOf(Math.max(...a.belief))]?.kind).toBe('pair')
  })

  it('sum to 1 with all others', () => {
    expect(weighed(map(1, { F1: 'no', F2: 'slow' })).belief.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9)
  })
})

describe('an answer is left over', () => {
  it('where the best explanation makes it less likely than chance', () => {
    const a = weighed(
      map(1, { F1: 'no' }, 0.01),
      look(7, 'seated', 'F1.motor', 'yes', 0.01),
      look(8, 'spins', 'F1', 'normal', 0.3),
    )
    expect(a.atOdds).toEqual([8])
    expect(a.conflict).toBe(false)
  })

  it('on a map too, by the chance of all its marks together', () => {
    // One fan right, one a slip, of three marks and none each: 0.9 × 0.1 / 3 = 0.03 is under 0.6 / 16, 0.8 × 0.2 / 3 is not.
    const sure = [look(2, 'spins', 'F1', 'no', 1e-4), look(3, 'spins', 'F2', 'normal', 1e-4)]
    expect(weighed(map(1, { F1: 'no', F2: 'no' }, 0.1), ...sure).atOdds).toEqual([1])
    expect(weighed(map(1, { F1: 'no', F2: 'no' }, 0.2), ...sure).atOdds).toEqual([])
  })

  it('never what was told of the past, nor what fits', () => {
    // The plug is out, which neither comes and goes nor happens suddenly: one time in four that is told all the same.
    const out = [map(1, { F1: 'no' }, 0.01), look(2, 'seated', 'F1.motor', 'no', 0.001)]
    const a = weighed(...out, told('since', 'suddenly'), told('comes-and-goes', 'yes'))
    expect(a.hypotheses[a.belief.indexOf(Math.max(...a.belief))]?.id).toBe('F1.motor:unplugged')
    expect(a.atOdds).toEqual([])
  })

  it('and nothing known fits, where every suspect does worse than chance', () => {
    // All plugs in, fans at their asked speed, and still told three times over that the one stands still and is home.
    const contradicting = [
      look(1, 'seated', 'F1.motor', 'other', 0.001),
      look(2, 'seated', 'F2.motor', 'other', 0.001),
      look(3, 'spins', 'F1', 'other', 0.001),
      look(4, 'spins', 'F2', 'other', 0.001),
    ]
    const a = weighed(...contradicting)
    expect(a.conflict).toBe(true)
    expect(belief(a, 'none-of-these')).toBeGreaterThan(0.9)
  })
})
