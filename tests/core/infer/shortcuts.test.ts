/** What is spared in weighing suspects changes no number: each shortcut is held against the plain way. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import { run } from '../../../src/core/bench/run.ts'
import { mapAsk, mappedAll } from '../../../src/core/checks/maps.ts'
import { assess, knowledgeOf } from '../../../src/core/infer/assess.ts'
import { type Many, thingsIn } from '../../../src/core/infer/evidence.ts'
import { type Hypothesis, hypotheses, pairOf } from '../../../src/core/infer/hypothesis.ts'
import { likelihood } from '../../../src/core/infer/likelihood.ts'
import { seenIn, sightsOf } from '../../../src/core/infer/sights.ts'
import { editOf } from '../../support/bench-look.ts'
import { example } from '../../support/examples.ts'
import { dossier } from './lit-fan.ts'

const machine = compile(example('small-three-fans'))
const singles = hypotheses(machine, () => true, [])
const pairs = singles.flatMap((a, i) => {
  const b = singles[(i * 7 + 3) % singles.length]
  const pair = i % 6 === 0 && a.kind === 'single' && b?.kind === 'single' ? pairOf(a, b) : undefined
  return pair ? [pair] : []
})
const suspects = [...singles.filter((h, i) => h.kind !== 'single' || i % 4 === 0), ...pairs]
const histories = [
  { done: 'nothing', history: [] },
  { done: 'an exchange', history: ['power off', 'swap F1.motor F2.motor', 'power on'].map(editOf) },
  {
    done: 'a plug out, the host silent',
    history: ['unplug F2.light', 'set host/program = absent'].map(editOf),
  },
]
const scope = mappedAll(machine, ['spins', 'lit', 'steady', 'rpm'])
const plainly = (h: Hypothesis, edits: readonly Edit[]) =>
  (h.intermittent ? [false, true] : [false]).map((contact) => {
    const { see } = run(machine, { plants: h.plants, edits, contact })
    return scope.map(see)
  })

function mapAfter(history: readonly Edit[], seq: number, marks: readonly string[] = []): Many {
  const ask = mapAsk(machine, ['spins', 'lit', 'steady'], 'scope')
  if (!ask.many) expect.fail('no map')
  return { kind: 'many', seq, id: ask.id, history, error: ask.error, marks: ask.marks, chosen: marks }
}

describe('a suspect shows the same', () => {
  it.each(histories)('whether all is looked at or only what it can touch, after $done', ({ history }) => {
    const sights = sightsOf(machine)
    for (const h of suspects) {
      const plain = plainly(h, history)
      const views = sights.views(h, history, scope)
      expect(
        views.map((view) => scope.map((_, i) => seenIn(view, i))),
        h.id,
      ).toEqual(plain)
      expect(sights.values(h, history, scope), h.id).toEqual(plain)
      const [first = []] = plain
      expect(sights.shows(h, history, scope, first), h.id).toBe(plain.every((p) => `${p}` === `${first}`))
      expect(sights.shows(h, history, scope, ['none', ...first.slice(1)]), h.id).toBe(false)
    }
  })
})

describe('the marks of a map', () => {
  it('are as probable as those of its things, one after the other', () => {
    const e = mapAfter([], 1, ['F1:no', 'F2:dark'])
    const sights = sightsOf(machine)
    for (const h of suspects.filter((s) => !s.intermittent && s.kind !== 'none')) {
      const { see } = run(machine, { plants: h.plants, edits: [] })
      const product = thingsIn(e).reduce((all, { marks, chosen, observe }) => {
        const right = marks.find((m) => m.value === see(observe)) === chosen
        return all * (right ? 1 - e.error : e.error / marks.length)
      }, 1)
      expect(likelihood(e, h, sights), h.id).toBe(product)
    }
  })
})

describe('what is believed', () => {
  it('is the same to the last bit whatever was thought before: answers added, repeated and taken back', () => {
    const used = knowledgeOf(machine, [])
    const [a, b, again] = [
      mapAfter([], 1, ['F1:no']),
      mapAfter([], 2, ['F1:no', 'F3:dark']),
      mapAfter([], 3, ['F3:dark']),
    ]
    for (const evidence of [[a], [a, b, again], [a, again], [a, b]]) {
      const before = assess(used, dossier({ evidence }))
      const fresh = assess(knowledgeOf(machine, []), dossier({ evidence }))
      expect(before.hypotheses.map((h) => h.id)).toEqual(fresh.hypotheses.map((h) => h.id))
      expect([...before.belief]).toEqual([...fresh.belief])
    }
  })
})
