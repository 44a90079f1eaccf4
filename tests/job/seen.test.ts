import { expect, test } from 'vitest'
import type { Ask } from '../../src/core/checks/prompt.ts'
import { seenAgainstPlan } from '../../src/job/seen.ts'
import type { TrailEntry } from '../../src/job/view.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { askLit, askMany, askSince, doPowerOff } from '../support/fake-session.ts'

const entry = (
  seq: number,
  prompt: TrailEntry['prompt'],
  reply: TrailEntry['reply'],
  undone = false,
): TrailEntry => ({
  seq,
  prompt,
  reply,
  undone,
  notes: [],
})
const goes: Ask = {
  ...askLit,
  id: 'goes',
  power: 'off',
  observe: [{ what: 'goes', at: 'F3.light' }],
  answers: ['H1.3', 'H1.4'].map((value) => ({ id: value, means: [value] })),
}
const planned = archivePlan.leads.find((l) => l.plug === 'F3.light')?.socket ?? ''

test('a dark fan is unlike the plan, which lights it whole', () => {
  expect(seenAgainstPlan(archivePlan, [entry(1, askLit, ['dark'])])).toEqual([
    { seq: 1, observe: { what: 'lit', at: 'F3' }, power: 'on', seen: 'dark', planned: 'whole' },
  ])
})

test('of several only those that were marked were seen', () => {
  const seen = seenAgainstPlan(archivePlan, [entry(1, askMany, ['F1=dark', 'F4=part'])])
  expect(seen.map((s) => `${s.observe.at} ${s.seen}`)).toEqual(['F1 dark', 'F4 part'])
})

test('what was taken back, not answered, or said about the past is no sighting', () => {
  const trail = [entry(1, askLit, ['dark'], true), entry(2, askLit, 'unsure'), entry(3, askSince, ['new'])]
  expect(seenAgainstPlan(archivePlan, trail)).toEqual([])
})

test('the plan is taken with the changes made up to then: with the mains off no light is on', () => {
  const off: Ask = { ...askLit, power: 'off' }
  const [seen] = seenAgainstPlan(archivePlan, [entry(1, doPowerOff, 'done'), entry(2, off, ['dark'])])
  expect(seen?.planned).toBe('dark')
})

test('a lead in the socket that the plan names is as planned, also after it was moved there and back', () => {
  const move = (socket: string): TrailEntry['prompt'] => ({
    ...doPowerOff,
    purpose: 'check',
    edits: [{ do: 'plug', plug: 'F3.light', socket }],
  })
  const at = (trail: readonly TrailEntry[]) => seenAgainstPlan(archivePlan, trail).at(-1)?.planned
  expect(at([entry(1, goes, [planned])])).toBe(planned)
  expect(at([entry(1, move('H1.6'), 'done'), entry(2, goes, ['H1.4'])])).toBe('H1.6')
  expect(
    at([entry(1, move('H1.6'), 'done'), entry(2, move(planned), 'done'), entry(3, goes, ['H1.4'])]),
  ).toBe(planned)
})
