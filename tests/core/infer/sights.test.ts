/** What a suspect would show: worked out once, remembered, and within bounds that never change what is seen. */
import { expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Observable } from '../../../src/core/bench/observable.ts'
import { HEALTHY, type Hypothesis, hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { seenIn, sightsOf } from '../../../src/core/infer/sights.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const machine = compile(build().header('SYS1').plainFan('F1..F2').lead('F1.motor', 'board.SYS1').plan())
const spins: Observable = { what: 'spins', at: 'F1' }
const rpm: Observable = { what: 'rpm', at: 'board.SYS1' }
const alarm: Observable = { what: 'alarm', at: 'board.SYS1' }
const named = (id: string): Hypothesis =>
  hypotheses(machine, () => true, []).find((h) => h.id === id) ?? expect.fail(`no ${id}`)

/** A suspect that counts how often the bench was run for it. @param like the suspect whose faults it has, if any */
function counted(id: string, intermittent = false, like?: Hypothesis) {
  const times = { run: 0 }
  const h: Hypothesis = {
    id,
    kind: 'single',
    faults: [],
    families: [],
    plants: [() => times.run++, ...(like?.plants ?? [])],
    intermittent,
    prior: 0.1,
  }
  return { h, times }
}

test('a steady suspect has one sight, a contact that comes and goes two: broken, then made', () => {
  const sights = sightsOf(machine)
  expect(sights.values(named('F1.motor:unplugged'), [], [spins, rpm])).toEqual([['no', 'zero']])
  expect(sights.values(named('F1.motor:loose'), [], [spins])).toEqual([['no'], ['normal']])
  expect(sights.values(named('F1.motor:unplugged'), [editOf('reseat F1.motor')], [spins])).toEqual([
    ['normal'],
  ])
})

test('of a fan that its curve starts and stops, a steady suspect shows the moment at which it rests', () => {
  const steps = compile(
    build()
      .header('SYS1')
      .plainFan('F1', { motor: { below_min: 'stops' } })
      .lead('F1.motor', 'board.SYS1')
      // Rests at 40 °C and turns at 41 °C: two degrees are what a temperature wavers by.
      .set('SYS1', {
        curve: [
          [40, 0],
          [41, 70],
        ],
      })
      .settings({ celsius: 40 })
      .plan(),
  )
  expect(sightsOf(steps).values(HEALTHY, [], [spins])).toEqual([['no']])
})

test('a suspect shows what was seen only where all of it is so in every one of its sights', () => {
  const sights = sightsOf(machine)
  const shows = (id: string, ...values: string[]) => sights.shows(named(id), [], [spins, rpm], values)
  expect(shows('F1.motor:unplugged', 'no', 'zero')).toBe(true)
  expect(shows('F1.motor:unplugged', 'no', 'plausible')).toBe(false)
  expect(shows('F1.motor:loose', 'no', 'zero')).toBe(false)
  expect(shows('F1.motor:loose', 'normal', 'plausible')).toBe(false)
})

test('the bench is run once a suspect and what was done, whatever is looked at and how often', () => {
  const sights = sightsOf(machine)
  const { h, times } = counted('s')
  for (const o of [spins, rpm, alarm, spins]) sights.values(h, [], [o])
  sights.shows(h, [], [spins, rpm, alarm], ['normal', 'plausible', 'no'])
  expect(times.run).toBe(1)
  sights.values(h, [editOf('power off')], [spins])
  sights.values(h, [editOf('power off')], [rpm])
  expect(times.run).toBe(2)
})

test('the second sight of a contact is not worked out where the first already differs', () => {
  const { h, times } = counted('s', true)
  expect(sightsOf(machine).shows(h, [], [spins, rpm], ['no', 'plausible'])).toBe(false)
  expect(times.run).toBe(1)
})

test('400 suspects are kept ready; of one before them what was seen is known, and the rest is worked out again', () => {
  const sights = sightsOf(machine)
  const { h, times } = counted('first', false, named('F1.motor:unplugged'))
  sights.values(h, [], [spins])
  const others = Array.from({ length: 400 }, (_, i) => counted(`s${i}`).h)
  for (const other of others.slice(0, 399)) sights.values(other, [], [spins])
  sights.values(h, [], [rpm])
  expect(times.run).toBe(1)
  sights.values(others[399] ?? h, [], [spins])
  expect(sights.values(h, [], [spins, rpm])).toEqual([['no', 'zero']])
  expect(times.run).toBe(1)
  expect(sights.values(h, [], [alarm])).toEqual([['no']])
  expect(times.run).toBe(2)
})

test('what a suspect cannot touch is as planned, and the bench is not run again for it', () => {
  const sights = sightsOf(machine)
  const { h, times } = counted('first')
  sights.values(h, [], [spins])
  for (let i = 0; i < 400; i++) sights.values(counted(`s${i}`).h, [], [spins])
  expect(sights.values(h, [], [spins, rpm, alarm])).toEqual([['normal', 'plausible', 'no']])
  expect(times.run).toBe(1)
})

test('of a list is told what is usual, and what a suspect shows otherwise, wherever it stands in the list', () => {
  const list = [spins, rpm, alarm, rpm]
  const [view, ...others] = sightsOf(machine).views(named('F1.motor:unplugged'), [], list)
  if (!view) expect.fail('no view')
  expect(others).toEqual([])
  expect(view.usual).toEqual(['normal', 'plausible', 'no', 'plausible'])
  expect([...view.but]).toEqual([
    [0, 'no'],
    [1, 'zero'],
    [3, 'zero'],
  ])
  expect(list.map((_, i) => seenIn(view, i))).toEqual(['no', 'zero', 'no', 'zero'])
})

test('240 ways in which a build was changed are remembered; the oldest is worked out again', () => {
  const sights = sightsOf(machine)
  const { h, times } = counted('s')
  const changed = (rpm: number) => [editOf(`set headers/SYS1/alarm_below = ${rpm}`)]
  for (let i = 1; i <= 240; i++) sights.values(h, changed(i), [spins])
  sights.values(h, changed(1), [spins])
  expect(times.run).toBe(240)
  sights.values(h, changed(241), [spins])
  sights.values(h, changed(2), [spins])
  expect(times.run).toBe(241)
  expect(sights.values(h, changed(1), [spins])).toEqual([['normal']])
  expect(times.run).toBe(242)
})
