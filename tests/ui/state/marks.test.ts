/** A question on which several places are marked: what Space and `a` do, and what Enter is said to record. */
import { expect, test } from 'vitest'
import { askMany, askSince, type ScriptStep } from '../../support/fake-session.ts'
import { screenAt } from './screen-at.ts'

const many: readonly ScriptStep[] = [{ prompt: askMany }, { prompt: askSince }]

test('what Enter will record, and what Space goes through, stand below the places', async () => {
  const at = screenAt(many)
  expect(at.text()).toContain('Space: ● dark, ◐ in part, then no mark')
  expect(at.text()).toContain('Nothing marked: Space marks, Enter records')
  await at.type('1 3  ')
  expect(at.text()).toContain('2 marked: F1 dark, F3 in part – Enter records this')
})

test('more ways than have room are cut between two of them, with the way back to none', () => {
  const sockets = ['H1.1', 'H1.2', 'H1.4', 'H1.5', 'board.L1']
  const marks = [
    { id: 'no', observe: { what: 'seated' as const, at: 'F3.light' }, value: 'no' },
    ...sockets.map((at) => ({ id: at, observe: { what: 'goes' as const, at: 'F3.light' }, value: at })),
  ]
  const at = screenAt([{ prompt: { ...askMany, marks } }], { columns: 60, rows: 20 })
  const said = at.lines()
  const first = said.findIndex((l) => l.startsWith('Space: '))
  expect(`${said[first]} ${said[first + 1]}`).toMatch(/^Space: ● not home, ◐ .*, …, then no mark$/u)
})

test('the proof is said to be one on the smallest screen too, before how to look', () => {
  const fans = ['F1', 'F2', 'F3', 'F4', 'F5', 'F6', 'F7']
  const marks = [
    ...fans.map((at) => ({ id: `${at}:s`, observe: { what: 'steady' as const, at }, value: 'stops' })),
    { id: 'SYS1:z', observe: { what: 'rpm' as const, at: 'board.SYS1' }, value: 'zero' },
  ]
  const at = screenAt([{ prompt: { ...askMany, stage: 'proof', marks } }], { columns: 60, rows: 20 })
  expect(at.text()).toContain('This is the proof')
})

test('a marks all that have no mark like the highlighted one, and then all together', async () => {
  const at = screenAt(many)
  await at.type('2  1 a')
  expect(at.text()).toContain('4 marked: F1 dark, F2 in part, F3 dark, F4 dark')
  await at.type('a')
  expect(at.text()).toContain('4 marked: F1 in part, F2 in part, F3 in part, F4 in part')
  await at.type('a')
  expect(at.text()).toContain('Nothing marked')
  await at.type('a⏎')
  expect(at.session.said).toEqual([{ say: 'answer', ids: ['F1=dark', 'F2=dark', 'F3=dark', 'F4=dark'] }])
})

test('with a filter, a goes over what is shown', async () => {
  const at = screenAt(many)
  await at.type('/F3⏎a')
  expect(at.text()).toContain('1 marked: F3 dark')
})

test('a fan that stands still and is dark can be marked for both, on a row each', async () => {
  const mark = (what: 'spins' | 'lit', value: string) => ({
    id: `F1:${what}-${value}`,
    observe: { what, at: 'F1' },
    value,
  })
  const marks = [mark('spins', 'no'), mark('spins', 'twitches'), mark('lit', 'dark'), mark('lit', 'part')]
  const at = screenAt([{ prompt: { ...askMany, marks } }])
  expect(at.text()).toMatch(/1 \[ \] fan F1 .*motor[\s\S]*2 \[ \] fan F1 .*lights/u)
  await at.type('1 2  ')
  expect(at.text()).toContain('2 marked: fan F1 motor still, fan F1 lights in part')
  await at.type('⏎')
  expect(at.session.said).toEqual([{ say: 'answer', ids: ['F1:spins-no', 'F1:lit-part'] }])
})

test('a plug that cannot have the mark of the highlighted one does not hold up the others', async () => {
  const goes = (at: string, sockets: readonly string[]) =>
    sockets.map((value) => ({ id: `${at}:${value}`, observe: { what: 'goes' as const, at }, value }))
  // The light of F1 belongs into socket 1, so it sits elsewhere only in 2.
  const marks = [...goes('F1.light', ['H1.2']), ...goes('F2.light', ['H1.1']), ...goes('F3.light', ['H1.1'])]
  const at = screenAt([{ prompt: { ...askMany, marks } }])
  await at.type('2a')
  expect(at.text()).toContain('2 marked')
  await at.type('a')
  expect(at.text()).toContain('Nothing marked')
})

test('the frame of the map is closed beside every place, also where nothing lies at the front', () => {
  const marks = ['F4', 'H1'].map((at) => ({ id: at, observe: { what: 'lit' as const, at }, value: 'dark' }))
  for (let columns = 60; columns < 70; columns++) {
    const lines = screenAt([{ prompt: { ...askMany, marks } }], { columns }).lines()
    const frame = lines.filter((l) => /^[│┌└]/u.test(l))
    expect(frame.length).toBeGreaterThan(3)
    for (const l of frame) expect(l).toMatch(new RegExp(`^.{${columns - 1}}[│┐┘]$`, 'u'))
  }
})

test('places are all named in one form, long if each has the room', () => {
  const marks = ['board.SYS1', 'H1.power', 'H1.usb'].map((at) => ({
    id: at,
    observe: { what: 'rpm' as const, at },
    value: 'zero',
  }))
  const text = (columns: number) =>
    screenAt([{ prompt: { ...askMany, marks } }], { columns, rows: 30 }).text()
  const short = /\] (?:header SYS1(?! on)|light hub H1\.power|H1\.usb)/gu
  const long = /\] (?:header SYS1 on the board|the supply plug of light hub H1|the USB plug of H1)/gu
  for (const columns of [60, 80, 132]) {
    const counts = [text(columns).match(short)?.length ?? 0, text(columns).match(long)?.length ?? 0]
    expect(counts.sort()).toEqual([0, 3])
  }
})
