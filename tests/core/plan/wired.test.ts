import { describe, expect, test } from 'vitest'
import { allPorts } from '../../../src/core/plan/ports.ts'
import { build } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiredPlan, wiring } from '../../support/wired.ts'

describe('generated builds', () => {
  test('read without problems, however they are put together', () => {
    fc.assert(
      fc.property(wiring, (made) => {
        expect(buildOf(made).read().ok).toBe(true)
      }),
      { numRuns: 60 },
    )
  })

  test('every lead joins a plug to a socket that exists, and no port is taken twice', () => {
    fc.assert(
      fc.property(wiredPlan, (plan) => {
        const ports = new Map(allPorts(plan).map((port) => [port.ref, port]))
        const ends = plan.leads.flatMap((lead) => [lead.plug, lead.socket])
        expect(new Set(ends).size).toBe(ends.length)
        for (const lead of plan.leads) {
          expect(ports.get(lead.plug)?.gender).toBe('plug')
          expect(ports.get(lead.socket)?.gender).toBe('socket')
        }
      }),
      { numRuns: 60 },
    )
  })
})

test('the builder wires fans to the ways of a splitter in order', () => {
  const plan = build()
    .header('SYS1', { amps: 2 })
    .fan('F1')
    .fan('F2')
    .splitter('Y1', ['F1', 'F2'])
    .lead('Y1.in', 'board.SYS1')
    .plan()
  expect(plan.leads.map((lead) => `${lead.plug} -> ${lead.socket}`)).toEqual([
    'F1.motor -> Y1.1',
    'F2.motor -> Y1.2',
    'Y1.in -> board.SYS1',
  ])
  expect(plan.board.fanHeaders[0]?.amps).toBe(2)
})
