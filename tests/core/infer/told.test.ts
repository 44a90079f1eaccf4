/** What a person tells, in numbers: of the past, of a thing that is unsteady, and whether the host program speaks by then. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import type { Hypothesis } from '../../../src/core/infer/hypothesis.ts'
import { answerOdds, likelihood, oddsUnder } from '../../../src/core/infer/likelihood.ts'
import { hostAfter } from '../../../src/core/infer/planned.ts'
import { sightsOf } from '../../../src/core/infer/sights.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const machine = compile(build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.SYS1').plan())
const sights = sightsOf(machine)
const suspect = (change: Partial<Hypothesis>): Hypothesis => ({
  id: 's',
  kind: 'single',
  faults: [],
  families: ['connection'],
  plants: [],
  intermittent: false,
  prior: 0.1,
  ...change,
})
const told = (about: string, chosen: string): Evidence => ({
  kind: 'about',
  seq: 1,
  id: about,
  history: [],
  error: 0,
  about,
  chosen,
})
const odds = (about: string, chosen: string, change: Partial<Hypothesis>): number =>
  likelihood(told(about, chosen), suspect(change), sights)

describe('what is told of the past', () => {
  it('that it comes and goes is right three times in four, and so is that it does not', () => {
    const row = (chosen: string) =>
      [true, false].map((intermittent) => odds('comes-and-goes', chosen, { intermittent }))
    expect(row('yes')).toEqual([0.75, 0.25])
    expect(row('no')).toEqual([0.25, 0.75])
  })

  it('that it never worked speaks for wiring, and nothing else does', () => {
    expect(odds('worked', 'never', { families: ['wiring'] })).toBeGreaterThan(1)
    expect(odds('worked', 'never', { families: ['part'] })).toBe(1)
    expect(odds('worked', 'before', { families: ['wiring'] })).toBe(1)
    expect(odds('weather', 'never', { families: ['wiring'] })).toBe(1)
  })

  it('since when counts for each fault of two', () => {
    const one = (family: 'part' | 'lead') => odds('since', 'suddenly', { families: [family] })
    expect(odds('since', 'suddenly', { families: ['part', 'lead'] })).toBeCloseTo(
      one('part') * one('lead'),
      12,
    )
    expect(odds('since', 'unsure', { families: ['part'] })).toBe(1)
  })
})

describe('the odds of an answer', () => {
  const answers = ['dark', 'whole', 'flicker', 'comes-and-goes'].map((id) => ({ id, means: [id] }))

  it('share what is said of something unsteady among all words for it', () => {
    const made = oddsUnder(answers, [['dark'], ['whole']], 0.04)
    expect(made.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12)
    // 0.3 for the two words together, and of the other 0.7 each wrong answer a third of 0.04.
    for (const i of [2, 3]) expect(made[i]).toBeCloseTo(0.3 / 2 + 0.7 * (0.04 / 3), 12)
    expect(made[0]).toBeCloseTo(0.7 * (0.65 * 0.96 + 0.35 * (0.04 / 3)), 12)
  })

  it('are even where nothing could be seen, where all fit, and where none does', () => {
    expect([...answerOdds(answers, [null], 0.1)]).toEqual([0.25, 0.25, 0.25, 0.25])
    expect([...answerOdds(answers.slice(0, 1), ['dark'], 0.1)]).toEqual([1])
    expect([...answerOdds(answers, ['part'], 0.1)]).toEqual([0.25, 0.25, 0.25, 0.25])
  })
})

it('the host program speaks as it was last told to, whatever else was set since, else as planned', () => {
  const speaks = (...edits: string[]) => hostAfter(machine, edits.map(editOf))
  const planned = machine.plan.settings.host.program
  expect(speaks()).toBe(planned)
  expect(speaks('set headers/SYS1/drive = dc', 'power off')).toBe(planned)
  expect(speaks('set host/program = absent', 'set headers/SYS1/drive = dc', 'reseat F1.motor')).toBe('absent')
  expect(speaks('set host/program = absent', 'set host/program = running')).toBe('running')
  const without = compile(build().plainFan('F1').host({ program: 'absent' }).plan())
  expect(hostAfter(without, [])).toBe('absent')
  expect(hostAfter(without, [editOf('set host/program = running')])).toBe('running')
})
