import { describe, expect, test } from 'vitest'
import type { PathStep } from '../../../src/job/view.ts'
import { askLit } from '../../support/fake-session.ts'
import { screenAt } from '../state/screen-at.ts'

const step = (
  ref: string,
  kind: PathStep['kind'],
  state: PathStep['state'] = 'planned',
  here = false,
): PathStep => ({
  ref,
  kind,
  state,
  here,
})
/** From the supply over a hub to a fan, as a job gives it: part, socket, plug, part. */
const path = [
  step('supply', 'part'),
  step('supply.SA.1', 'joint'),
  step('H1.power', 'joint'),
  step('H1', 'part'),
  step('H1.3', 'joint'),
  step('F3.light', 'joint', 'suspect', true),
  step('F3', 'part'),
]
const drawn = (steps: readonly PathStep[], columns = 80, ascii = false): string =>
  screenAt([{ prompt: askLit }], { columns, ascii, over: { path: steps } })
    .lines()
    .filter((l) => /^(Where| {7})/.test(l))
    .map((l) => l.trim())
    .join('\n')

describe('the path of a lead', () => {
  test('is drawn from the source to the part, each joint with its state, the place in question marked and named', () => {
    expect(drawn(path)).toBe(
      'Where  [supply] lead SA plug 1 ─●─ power [light hub H1] 3 ─?─ »light« [fan F3]\n» the light plug of fan F3 (top-rear): suspect',
    )
    expect(drawn(path, 80, true)).toBe(
      'Where  [supply] lead SA plug 1 -*- power [light hub H1] 3 -?- >>light<<\n[fan F3]\n>> the light plug of fan F3 (top-rear): suspect',
    )
  })

  test('a plug that is pulled or moved has a shape of its own', () => {
    const at = (state: PathStep['state']) =>
      drawn(path.map((s) => (s.ref === 'F3.light' ? { ...s, state } : s)))
    expect(at('unplugged')).toMatch(/3 ─○ {2}»light«[\s\S]*pulled out/u)
    expect(at('moved')).toMatch(/3 ─◆─ »light«[\s\S]*moved from its planned place/u)
  })

  test('where the part is in question, the shape of a joint that is not as planned is explained beside it', () => {
    const part = path.map((s) => (s.ref === 'F3' ? { ...s, here: true } : { ...s, here: false }))
    expect(drawn(part)).toMatch(/» fan F3 \(top-rear\) {3}─\?─ suspect$/u)
    expect(drawn(path)).not.toMatch(/─\?─ suspect/u)
  })

  test('a part or a socket in doubt is marked where it stands', () => {
    const doubted = path.map((s) =>
      s.ref === 'H1' || s.ref === 'H1.3' ? { ...s, state: 'suspect' as const } : s,
    )
    expect(drawn(doubted)).toContain('[light hub H1?] 3? ─?─')
  })

  test('a long one is broken between places and keeps the place in question in sight', () => {
    const long = Array.from({ length: 12 }, (_, i) => [
      step(`a-part-with-a-long-name-${i}`, 'part' as const),
      step(`a-part-with-a-long-name-${i}.socket`, 'joint' as const),
      step(`a-part-with-a-long-name-${i + 1}.in`, 'joint' as const, 'planned', i === 7),
    ]).flat()
    for (const columns of [60, 80, 132]) expect(drawn(long, columns)).toContain('»in«')
  })

  test('where nothing is in question none is drawn', () => {
    expect(drawn([])).toBe('')
  })
})
