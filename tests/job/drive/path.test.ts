/** Where the lead in question runs: as it is plugged now, not as the plan had it before hands moved it. */
import { expect, test } from 'vitest'
import type { Edit } from '../../../src/core/bench/edit.ts'
import { begin } from '../../../src/job/drive/job.ts'
import { pathOf } from '../../../src/job/drive/path.ts'
import { example } from '../../support/examples.ts'
import { doReseat } from '../../support/fake-session.ts'
import { groundFor } from '../../support/run-job.ts'

const plan = example('archive-ten-fans')
const job = begin(groundFor(plan, 'fan-still'))
const prompt = { ...doReseat, edits: [{ do: 'substitute' as const, what: 'P1' }] }
const pathAfter = (...history: Edit[]) => pathOf({ ...job, history, pending: { seq: 1, prompt } })
const run = (path: ReturnType<typeof pathOf>): string => path.map((s) => s.ref).join(' ')

test('a plug that a repair has moved is followed to where it is now', () => {
  expect(run(pathAfter())).toBe('board board.PUMP P1.motor P1')
  const moved = pathAfter({ do: 'plug', plug: 'P1.motor', socket: 'board.SYS3' })
  expect(run(moved)).toBe('board board.SYS3 P1.motor P1')
  expect(moved.find((s) => s.ref === 'P1.motor')?.state).toBe('moved')
})

test('and is as planned again once it is put back', () => {
  const there: Edit = { do: 'swap', a: 'P1.motor', b: 'F4.motor' }
  expect(run(pathAfter(there))).toContain('C1 C1.fan1 P1.motor P1')
  expect(pathAfter(there, there)).toEqual(pathAfter())
})

test('one that hangs free runs to nothing', () => {
  const free = pathAfter({ do: 'unplug', plug: 'P1.motor' })
  expect(run(free)).toBe('P1.motor P1')
  expect(free[0]?.state).toBe('unplugged')
})

test('a lead of the supply runs from the supply, where it is plugged in', () => {
  const seated = { ...doReseat, edits: [{ do: 'reseat' as const, plug: 'supply.SA' }] }
  const path = pathOf({ ...job, pending: { seq: 1, prompt: seated } })
  expect(path.map(({ ref, here }) => [ref, here])).toEqual([
    ['supply', false],
    ['supply.SA', true],
  ])
})
