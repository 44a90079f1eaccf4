/** Whether a job whose symptom is gone may be closed. */
import { expect, test } from 'vitest'
import type { CheckDef } from '../../../src/core/checks/step.ts'
import type { Alive } from '../../../src/core/infer/alive.ts'
import { type Doubt, doubtOf } from '../../../src/core/infer/doubt.ts'
import type { PlannedCheck } from '../../../src/core/infer/foresee.ts'
import { editOf } from '../../support/bench-look.ts'
import { dossier, known, named } from './lit-fan.ts'

const mended = dossier({ history: ['power off', 'reseat F1.motor', 'power on'].map(editOf) })

/** The plug that was pushed home, beside a wire that may only hold just now. */
const suspects = (still: number): Alive[] => [
  { h: named('F1.motor:unplugged'), p: 0.99 - still },
  { h: named('F1.motor:frayed-12V'), p: still },
  { h: named('none-of-these'), p: 0.01 },
]

const watch: CheckDef = {
  id: 'watch',
  edits: [],
  observe: [{ what: 'steady', at: 'F1' }],
  power: 'on',
  hands: 'out',
  minutes: 1.2,
  error: 0.05,
  tools: [],
  fit: false,
}
/** A look that shows trouble so often where the fault is still there, and so often by mistake. */
const planned = (change: Partial<CheckDef> = {}, hit = 0.7, slip = 0.02): PlannedCheck => ({
  check: { ...watch, ...change },
  answers: ['yes', 'comes-and-goes'].map((id) => ({ id, means: [id] })),
  table: [slip, hit, 0.5].map((p) => Float64Array.of(1 - p, p)),
  broken: [],
  same: undefined,
})
const doubt = (still: number, ...checks: PlannedCheck[]): Doubt =>
  doubtOf(known, mended, {
    step: { kind: 'hand-over' },
    expectedMinutes: 0,
    others: [],
    alive: suspects(still),
    checks,
  })

test('it is still there as likely as those who would show it again, at either moment of what comes and goes', () => {
  expect(doubt(0.2).still).toBeCloseTo(0.2, 12)
  expect(doubt(0).still).toBe(0)
})

test('a look is worth its minutes where it saves more of a job that comes back', () => {
  // 60 minutes × (0.7 × share − 0.02 × (0.99 − share)) against 1.2 minutes: worth it from 5.5 % on.
  expect(doubt(0.057, planned()).look?.id).toBe('watch')
  expect(doubt(0.054, planned()).look).toBeUndefined()
  // Where the mains must be off for it, both changes of power count.
  for (const change of [{ power: 'off', hands: 'in' }, { fit: true }] as const) {
    expect(doubt(0.14, planned(change)).look?.id).toBeUndefined()
    expect(doubt(0.15, planned(change)).look?.id).toBe('watch')
  }
})

test('the look that saves most is taken, the first by name where two save the same, and never a trial', () => {
  const looks = [
    planned({ id: 'glance' }, 0.5),
    planned({ id: 'long' }, 0.9),
    planned({ id: 'best' }, 0.8, 0),
  ]
  expect(doubt(0.1, ...looks).look?.id).toBe('best')
  const alike = [planned({ id: 'b' }), planned({ id: 'a' }), planned({ id: 'c' })]
  expect(doubt(0.1, ...alike).look?.id).toBe('a')
  // It would save 37 minutes and take a few, but nothing is tried on what seems mended.
  expect(doubt(0.9, planned({ edits: [editOf('swap F1.motor H1.usb')] })).look).toBeUndefined()
})
