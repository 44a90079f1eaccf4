/** What is still worth a glance before a job is handed over. */
import { expect, test } from 'vitest'
import type { CheckDef } from '../../../src/core/checks/step.ts'
import { assess } from '../../../src/core/infer/assess.ts'
import type { Outlook } from '../../../src/core/infer/decide.ts'
import type { PlannedCheck } from '../../../src/core/infer/foresee.ts'
import { lastLook } from '../../../src/core/infer/last-look.ts'
import { checksOffered } from '../../../src/core/infer/offered.ts'
import { whole } from '../../../src/core/infer/parts.ts'
import { editOf } from '../../support/bench-look.ts'
import { decide } from '../../support/decide.ts'
import { alive, dossier, known } from './lit-fan.ts'

const glance: CheckDef = {
  id: 'glance',
  edits: [],
  observe: [{ what: 'spins', at: 'F1' }],
  power: 'on',
  hands: 'out',
  minutes: 2,
  error: 0.05,
  tools: [],
  fit: false,
}
/** A check of which two answers are told apart so surely under two suspects: 1 tells all, 0.5 nothing. */
const planned = (change: Partial<CheckDef> = {}, sure = 1): PlannedCheck => ({
  check: { ...glance, ...change },
  answers: ['no', 'normal'].map((id) => ({ id, means: [id] })),
  table: [Float64Array.of(sure, 1 - sure), Float64Array.of(1 - sure, sure)],
  broken: [],
  same: undefined,
})
const two = alive('F1:motor-dead', 'board.SYS1:dead').map(({ h }) => ({ h, p: 0.5 }))
const lookOf = (...checks: PlannedCheck[]): string | undefined =>
  lastLook({
    step: { kind: 'hand-over' },
    expectedMinutes: 0,
    others: [],
    alive: two,
    checks,
  } satisfies Outlook)?.id

test('is the first that is taken from where one stands, in two minutes', () => {
  expect(lookOf(planned())).toBe('glance')
  const fetched: Partial<CheckDef>[] = [
    { power: 'off' },
    { hands: 'in' },
    { fit: true, minutes: 3.1 },
    { fit: true, edits: [editOf('reseat F1.motor')] },
    { tools: ['meter'] },
    { edits: [editOf('reseat F1.motor')] },
    { minutes: 2.1 },
  ]
  for (const change of fetched) expect(lookOf(planned(change)), JSON.stringify(change)).toBeUndefined()
  const all = fetched.map((change) => planned({ ...change, id: 'dear' }))
  expect(lookOf(...all, planned({ id: 'one' }), planned({ id: 'two' }))).toBe('one')
})

test('else has something fitted with the mains off, in seven minutes with both changes of power', () => {
  const cord = planned({ id: 'cord', fit: true, minutes: 3 })
  expect(lookOf(cord)).toBe('cord')
  expect(lookOf(cord, planned())).toBe('glance')
  expect(lookOf(cord, planned({}, 0.7))).toBe('cord')
})

test('tells at least a fifth of a bit of who it was', () => {
  // Of two suspects as likely as each other: 1 − H(0.75) = 0.19 bits, 1 − H(0.76) = 0.205.
  expect([lookOf(planned({}, 0.75)), lookOf(planned({}, 0.76)), lookOf()]).toEqual([
    undefined,
    'glance',
    undefined,
  ])
})

test('is a minute of watching where a header gives nothing, for good or now and then', () => {
  const lookFor = (...suspects: string[]): string | undefined => {
    const those = alive(...suspects)
    const base = decide(known, dossier(), assess(known, dossier()))
    return lastLook({ ...base, alive: those, checks: whole(checksOffered(known, dossier(), those)) })?.id
  }
  expect(lookFor('board.SYS1:dead', 'board.SYS1:trips-again')).toBe('look steady F1')
  // Both give up now and then: that is seen of neither by watching, but a worn contact gives when its lead is moved.
  expect(lookFor('board.SYS1:trips-again', 'board.SYS1:worn-contact')).toBe('look when-moved F1.motor')
  // These are told apart with hands in alone.
  expect(lookFor('F1.motor:unplugged', 'F1.motor:offset')).toBeUndefined()
})
