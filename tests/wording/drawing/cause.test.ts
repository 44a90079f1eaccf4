/** The way to a cause on the drawing of a build: from the source down to the plug, the part or the header it sits on. */
import { expect, test } from 'vitest'
import { planOf } from '../../../src/job/log/plan-copy.ts'
import { markedRows } from '../../../src/wording/drawing/cause.ts'
import { rowsOf } from '../../../src/wording/drawing/rows.ts'
import { planCopy } from '../../support/job-log.ts'

const read = planOf(planCopy)
if (!read.ok) throw new Error('the sample plan does not read')
const plan = read.value
const rows = rowsOf(plan, [])

/** Rows by their plug, or their name where there is none. */
const named = (set: ReadonlySet<number>): string[] =>
  [...set].sort((a, b) => a - b).map((i) => rows[i]?.plug ?? rows[i]?.name ?? '')

const marks = (at: string, mode: string) => {
  const { here, path } = markedRows(plan, { faults: [{ at, mode }], p: 1, alike: [] })
  return { here: named(here), path: named(path) }
}

test('a plug is marked with the way from the header through the hub', () => {
  expect(marks('F2.light', 'loose')).toEqual({ here: ['F2.light'], path: ['H1.in', 'F2.light'] })
  expect(marks('F3.motor', 'unplugged')).toEqual({ here: ['F3.motor'], path: ['Y1.in', 'F3.motor'] })
})

test('a pin is marked as its header, a setting as what it sets, a part where its leads come in', () => {
  expect(marks('board.SYS1/12V', 'dead').here).toEqual(['Y1.in'])
  expect(marks('headers/SYS1/drive', 'wrong-mode').here).toEqual(['Y1.in'])
  expect(marks('channels/H1/profile', 'count-low').here).toEqual(['H1.in'])
  expect(marks('supply.SA', 'unplugged').here).toEqual(['supply.SA'])
})

test('two leads that are exchanged are both marked', () => {
  expect(marks('F1.light', 'swapped-with-F2.light').here).toEqual(['F1.light', 'F2.light'])
})

test('what has no place on the wiring marks nothing', () => {
  expect(marks('build', 'none-of-these')).toEqual({ here: [], path: [] })
  expect(marks('host/program', 'not-running')).toEqual({ here: [], path: [] })
  expect(markedRows(plan, undefined).here.size).toBe(0)
})
