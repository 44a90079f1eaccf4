import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import { mapAsk, mappedAll } from '../../../src/core/checks/maps.ts'
import { HANDS_IN } from '../../../src/core/checks/step.ts'
import { aliveOf } from '../../../src/core/infer/alive.ts'
import { assess, knowledgeOf } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { scopeAfter } from '../../../src/core/infer/foresee.ts'
import { suspectsOf } from '../../../src/core/infer/suspects.ts'
import { build } from '../../support/build.ts'
import { decide } from '../../support/decide.ts'

const machine = compile(
  build()
    .supply('SA')
    .header('SYS1')
    .header('SYS2')
    .usbHeader('U1')
    .fan('F1..F3')
    .plainFan('F4')
    .splitter('Y1', ['F1', 'F2', 'F3'])
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lead('Y1.in', 'board.SYS1')
    .lead('F4.motor', 'board.SYS2')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .host({ program: 'running', global_effect: 'off' })
    .plan(),
)
const known = knowledgeOf(machine, [])
const ask = mapAsk(machine, ['lit'], 'scope')
const scope: Evidence = {
  kind: 'many',
  seq: 1,
  id: ask.id,
  history: [],
  error: ask.error,
  marks: ask.many ? ask.marks : [],
  chosen: ['F3:dark'],
}
const base: Dossier = {
  evidence: [scope],
  history: [],
  inForce: [],
  power: 'on',
  scope: mappedAll(machine, ['lit']),
  closed: new Set(),
  toolsMissing: new Set(),
}
const outlook = (d: Dossier) => decide(known, d, assess(known, d))
const idOf = (o: ReturnType<typeof outlook>): string =>
  o.step.kind === 'check' ? o.step.check.id : o.step.kind === 'repair' ? o.step.repair.id : 'hand-over'

describe('the next step', () => {
  test('is the same for the same dossier', () => {
    expect(idOf(outlook(base))).toBe(
      idOf(decide(knowledgeOf(machine, []), base, assess(knowledgeOf(machine, []), base))),
    )
  })

  test('is never one that was closed, down to handing over', () => {
    const closed = new Set<string>()
    for (let i = 0; i < 40; i++) {
      const o = outlook({ ...base, closed })
      const id = idOf(o)
      if (id === 'hand-over') break
      expect(closed.has(id)).toBe(false)
      closed.add(id)
    }
    expect(closed.size).toBeGreaterThan(3)
  })

  test('needs no hands in the case for a technician who cannot switch off', () => {
    const closed = new Set<string>()
    for (let i = 0; i < 12; i++) {
      const o = outlook({ ...base, closed, toolsMissing: new Set([HANDS_IN]) })
      if (o.step.kind === 'hand-over') break
      if (o.step.kind === 'check') expect(o.step.check.hands).toBe('out')
      else expect(o.step.repair.hands).toBe('out')
      closed.add(idOf(o))
    }
  })

  test('is worth its minutes: no other step that was weighed is expected to be quicker', () => {
    const o = outlook(base)
    for (const other of o.others)
      expect(other.expectedMinutes).toBeGreaterThanOrEqual(o.expectedMinutes - 1e-9)
  })

  test('after the plug was found out it is to push it home, and the job is expected to be nearly over', () => {
    const found: Evidence = {
      kind: 'one',
      seq: 2,
      id: 'look seated F3.light',
      history: [{ do: 'power', to: 'off' }],
      error: 0.12,
      observe: [{ what: 'seated', at: 'F3.light' }],
      answers: ['yes', 'no', 'doubtful'].map((id) => ({ id, means: [id] })),
      chosen: 'no',
    }
    const o = outlook({
      ...base,
      evidence: [scope, found],
      history: [{ do: 'power', to: 'off' }],
      power: 'off',
    })
    expect(o.step.kind).toBe('repair')
    expect(o.step.kind === 'repair' && o.step.repair.edits).toSatisfy((edits: Edit[]) =>
      edits.some((e) => (e.do === 'reseat' || e.do === 'plug') && e.plug === 'F3.light'),
    )
    expect(o.expectedMinutes).toBeLessThan(outlook(base).expectedMinutes)
  })

  test('does not ask what was answered and fits the rest', () => {
    const closed = new Set<string>()
    for (let i = 0; i < 10; i++) {
      const id = idOf(outlook({ ...base, closed }))
      expect(id).not.toMatch(/^look lit F[123]$/)
      closed.add(id)
    }
  })

  test('asks only what some suspects in question would answer differently', () => {
    const o = outlook(base)
    for (const { table } of o.checks) {
      const first = table[0]
      expect(table.some((row) => row.some((p, i) => Math.abs(p - (first?.[i] ?? 0)) > 1e-6))).toBe(true)
    }
  })
})

describe('suspects', () => {
  test('that are alike in all that can be asked are told as one, and their shares add up', () => {
    const o = outlook(base)
    const told = suspectsOf(o.alive, o.checks, 50)
    const lead = told.find((s) => s.faults[0]?.at === 'F3.light' && s.faults[0].mode === 'open-DATA')
    const all = lead ? [lead.faults, ...lead.alike.map((a) => a.faults)].flat() : []
    // A broken data wire and dead lights both stay dark wherever the lead is plugged; no look here tells them apart.
    expect(all).toContainEqual({ at: 'F3', mode: 'lights-dead' })
    expect(told.reduce((sum, s) => sum + s.p, 0)).toBeLessThanOrEqual(1 + 1e-9)
  })

  test('in question are the likeliest, up to nearly all of the belief, and "none of these"', () => {
    const alive = aliveOf(assess(known, base))
    expect(alive.at(-1)?.h.kind).toBe('none')
    expect(alive.reduce((sum, a) => sum + a.p, 0)).toBeCloseTo(1, 5)
    for (let i = 1; i < alive.length - 1; i++) expect(alive[i]?.p).toBeLessThanOrEqual(alive[i - 1]?.p ?? 0)
  })
})

test('a header is looked for where its plug has been moved to', () => {
  const rpm = [{ what: 'rpm', at: 'board.SYS2' }] as const
  expect(scopeAfter(machine, rpm, [])).toEqual(rpm)
  expect(scopeAfter(machine, rpm, [{ do: 'plug', plug: 'F4.motor', socket: 'board.SYS3' }])).toEqual([
    { what: 'rpm', at: 'board.SYS3' },
  ])
})
